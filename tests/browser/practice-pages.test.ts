/** Every kind of page of practice, against WCAG 2.2, on small and wide screens, with a quiet console. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll } from 'vitest'
import { debriefWaitPage } from '../../server/pages/practice/debrief-page.js'
import { pageNames } from '../../server/pages/render.js'
import type { PracticeMove } from '../../shared/practice.js'
import { OPENED } from '../api/bench.js'
import type { Bench } from './browser.js'
import { openBench } from './browser.js'
import { holdPages } from './inspected-pages.js'
import type { Inspection } from './inspection.js'
import { inspect } from './inspection.js'
import { showMade } from './made-page.js'

let bench: Bench
let page: Page
const inspected = new Map<string, Inspection>()

beforeAll(async () => {
  bench = await openBench()
  page = await bench.open()
  await walkThroughAll()
})
afterAll(() => bench.close())

const look = async (name: string, address: string, shown = 'h1') => {
  await page.goto(address)
  await page.locator(shown).first().waitFor()
  inspected.set(name, await inspect(page, name.includes(',')))
}

/** One learner who has finished one exercise, is at a second one, and has a third set. */
async function walkThroughAll(): Promise<void> {
  const { register, knowledge } = bench
  const level = [...knowledge.levels].sort((a, b) => a.order - b.order)[0]!
  const kind = level.kinds[0]!
  const setting = { hideSuspects: false, hidePrices: false }
  const ofClass = await register.addClass({ name: 'Tuesdays', at: OPENED })
  const { id: learner } = await register.addLearner({ name: 'Ana', class: ofClass.id, at: OPENED })
  await register.addSetExercise({ class: ofClass.id, kind, level: level.id, seed: 9, setting, at: OPENED })
  const begun = (seed: number) =>
    register.begin({ learner, kind, level: level.id, seed, setting, at: OPENED })
  const suspect = knowledge.causes.find(({ shares }) => kind in shares)!.id
  const moves: PracticeMove[] = [
    { type: 'spread', spread: { points: { [suspect]: 60 }, other: 40 } },
    { type: 'disinfected' },
    { type: 'ended', way: 'send-in' },
  ]
  const over = await begun(4)
  for (const [k, move] of moves.entries()) await register.makeMove(over.id, move, OPENED, k)
  const on = await begun(5)
  const exercise = `/practice/exercises/${on.id}`
  const people = `/practice/people/${learner}`
  const classes = `/practice/classes/${ofClass.id}`
  const complaint = knowledge.steps.find(({ form, kinds }) => form === 'ask' && kinds.includes(kind))!
  const part = knowledge.causes.find(({ shares }) => kind in shares)!.part
  const confusion = `/practice/lessons/confusions/${knowledge.confusions[0]!.id}`
  const hearsay = `/practice/lessons/hearsay/${knowledge.hearsay[0]!.id}`

  await look('practice/debrief', `/practice/exercises/${over.id}/debrief`, '#steps')
  await look('practice/door', '/practice')
  await look('practice/learner', people)
  await look('practice/record', `${people}/record`)
  await look('practice/skills', `${people}/skills`)
  await look('practice/skills, to be signed', `${classes}/people/${learner}/skills`)
  await look('practice/classes', '/practice/classes')
  await look('practice/class', classes)
  await look('practice/set', `${classes}/set`)
  await look(
    'practice/set, the rest',
    `${classes}/set?${new URLSearchParams({ level: level.id, kind, seed: '7' }).toString()}`,
  )
  await look('practice/bench', exercise)
  const groups = await page.locator(`a[href^="${exercise}/moves?in="]`).all()
  const hrefs = await Promise.all(groups.map((link) => link.getAttribute('href')))
  // one that is folded by parts, and one that is not
  for (const href of new Set(hrefs))
    if (/in=(test|end)$/.test(href ?? '')) await look(`practice/moves, ${href}`, href!)
  const looked = knowledge.steps.find(({ form, kinds }) => form === 'check' && kinds.includes(kind))!
  await look('practice/how', `${exercise}/how?move=looked/${looked.id}`)
  await look('practice/moves, found', `${exercise}/moves?q=oil`)
  await look('practice/points', `${exercise}/points`)
  const hurt = await begun(6)
  const opened = knowledge.setups.find((it) => it.opensBody && it.kinds.includes(kind))!
  await register.makeMove(hurt.id, { type: 'stood', setup: opened.id }, OPENED, 0)
  await look('practice/held', `/practice/exercises/${hurt.id}/debrief`)
  await look('practice/join', '/join')
  await look('practice/lesson-room', `${classes}/lesson`)
  await look('practice/wall', `${classes}/wall`)
  await look('practice/lessons', '/practice/lessons')
  await look('practice/lesson-part', `/practice/lessons/parts/${kind}/${part}`)
  await look('practice/lesson-confusion', confusion)
  await look('practice/lesson-confusion, answered', `${confusion}?say=1`)
  await look('practice/hearsay', hearsay)
  await look('practice/hearsay, answered', `${hearsay}?say=depends`)
  await look('practice/by-ear', '/practice/lessons/by-ear?kind=rotary-cordless&n=5')
  await look('practice/cards', '/practice/cards')
  await look('practice/cards, of a kind', `/practice/cards?kind=${kind}`)
  await look('practice/card', `/practice/cards/${kind}/${complaint.questions[0]!.id}`)
  // it stands while a debrief is worked out, and is gone too soon to be met
  await showMade(page, 'practice/debrief-wait', debriefWaitPage(over.id))
  inspected.set('practice/debrief-wait', await inspect(page))
}

holdPages(
  inspected,
  pageNames.filter((name) => name.startsWith('practice/')),
  () => bench,
)
