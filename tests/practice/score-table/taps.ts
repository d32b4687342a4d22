/** How often a finger taps for an exercise, from the tool on the bench to its debrief, by what the pages show unfolded. */
import type { Knowledge } from '../../../shared/knowledge.js'
import { practiceBenchPage } from '../../../server/pages/practice/bench-page.js'
import { groupFrom, practiceMovesPage } from '../../../server/pages/practice/moves-page.js'
import { benchMoves } from '../../../server/pages/practice/bench-moves.js'
import { keyOf } from '../../../server/pages/practice/move-key.js'
import type { Played } from '../../../server/practice/played.js'

const showing = { hidePrices: false, currency: { code: 'EUR', digits: 2 } } as const
const learner = { id: 'learner-1', name: 'Ana' }
/** The list, the suspect in it, how sure, and "Put them down". */
const forPoints = 4

/**
 * Each move with what has to be opened for it; before the first fix a suspect is named. What has to be off or open for a
 * look or a fix is made on the way, once the plug is out: nobody taps for that.
 */
export async function tapsOf(knowledge: Knowledge, played: Played): Promise<number> {
  let taps = 0
  let named = false
  for (const [k, { move, before }] of played.done.entries()) {
    if (move.type === 'spread') continue
    if (move.type === 'tried' && !named) {
      taps += forPoints
      named = true
    }
    const at = {
      knowledge,
      learner,
      hint: () => Promise.reject(new Error('no exercise here shows it')),
      showing,
      played: { ...played, done: played.done.slice(0, k), now: before },
    }
    const key = keyOf(move)
    const page = await practiceBenchPage(at)
    if (page.quick.some((it) => it.key === key)) taps += 1
    else if (move.type !== 'stood') {
      const { group = '' } =
        (await benchMoves(knowledge, played.desk, before, showing)).find((it) => it.key === key) ?? {}
      const list = await practiceMovesPage(at, { group: groupFrom(group), q: '' })
      const section = list.sections.find(({ moves }) => moves.some((it) => it.key === key))
      taps += section?.folded ? 3 : 2
    }
  }
  return taps
}
