/** A shop over the whole rulebook, with learners put into it as a test wants them. */
import { afterAll, beforeAll } from 'vitest'
import { causesOf } from '../../server/practice/level-book.js'
import type { Bench } from '../api/bench.js'
import { benchWith, OPENED } from '../api/bench.js'
import { day } from '../practice/results.js'
import { keepOver } from './kept-exercises.js'
import { Visitor } from './visitor.js'
import { knowledge } from '../the-rulebook.js'

export { knowledge }

export const none = { hideSuspects: false, hidePrices: false }
export const levels = [...knowledge.levels].sort((a, b) => a.order - b.order)
export const level = levels[0]!
/** of that level, with the causes that may be there */
export const kind = (level.kinds as string[])[0]!
export const may = causesOf(knowledge, level, kind, none)

/** Opens shops for the tests of one file, and closes them after the last. */
export function practiceShops() {
  const open: Bench[] = []
  const opened = async (): Promise<Bench & { me: Visitor }> => {
    const bench = await benchWith({ knowledge })
    open.push(bench)
    return { ...bench, me: new Visitor(bench.app) }
  }
  let shared: Bench | undefined
  let classes = 0
  beforeAll(async () => void (shared = await opened()))
  afterAll(() => Promise.all(open.map((bench) => bench.close())))

  return {
    /** An empty one. */
    opened,
    /** Ana, alone in a class of her own, in a shop that has other classes too. */
    async withLearner() {
      const bench = { ...shared!, me: new Visitor(shared!.app) }
      const ofClass = await bench.register.addClass({ name: `Wednesday ${++classes}`, at: OPENED })
      const learner = await bench.register.addLearner({ name: 'Ana', class: ofClass.id, at: OPENED })
      /** One of three causes, with so many points on it and the rest on its neighbour; so many days from now. */
      const over = (days: number, points: number, more: object = {}) => {
        const cause = may[Math.abs(days) % 3]!
        const wrong = may[(Math.abs(days) % 3) + 1]!
        const given = {
          ...(points > 0 && { [cause]: points }),
          ...(points < 100 && { [wrong]: 100 - points }),
        }
        return keepOver(
          bench.register,
          { learner: learner.id, kind, level: level.id, suspects: may },
          { at: day(OPENED, days), causes: [cause], spread: { points: given, other: 0 }, ...more },
        )
      }
      return { ...bench, ofClass, learner, over, home: `/practice/people/${learner.id}` }
    },
  }
}
