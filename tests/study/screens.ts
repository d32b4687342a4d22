/**
 * npm run screens [-- --told 73 --drawn 96]: how many screens people see, without a browser. Repairs that others told,
 * with "can't tell" to all that is not told; tools drawn from the rulebook, who can tell as `rules/telling/` says; and
 * somebody who can tell nothing at all. Some minutes of one core.
 */
import { parseArgs } from 'node:util'
import { prepare } from '../../server/diagnosis/assess.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import type { Course } from '../../server/simulation/course.js'
import { runCourse } from '../../server/simulation/course.js'
import { drawTool } from '../../server/simulation/tool.js'
import { ScreenTime, ShopSettings } from '../../shared/situation.js'
import { readStories } from '../bench-cases/story.js'
import { asTheProduct } from './policies.js'
import type { Told, Walk } from './told-walk.js'
import { walkTold } from './told-walk.js'

const { values } = parseArgs({
  options: {
    told: { type: 'string', default: '73' },
    drawn: { type: 'string', default: '96' },
    minutes: { type: 'string' },
    trails: { type: 'boolean', default: false },
  },
})
const shop = ShopSettings.parse({
  skill: 'S3',
  canSafetyTest: true,
  screens: values.minutes ? ScreenTime.parse({ minutes: Number(values.minutes) }) : ScreenTime.parse({}),
})

const spread = (screens: readonly number[]): string => {
  const sorted = [...screens].sort((a, b) => a - b)
  const mean = sorted.reduce((sum, n) => sum + n, 0) / sorted.length
  return `mean ${mean.toFixed(2)}, 90th ${sorted[Math.ceil(sorted.length * 0.9) - 1]}, most ${sorted.at(-1)}`
}

function print(what: string, walks: readonly Walk[], mark: string): void {
  console.log(
    `${what}: ${walks.length}; screens ${spread(walks.map(({ screens }) => screens))} (mark: ${mark})`,
  )
  console.log(
    `  to the very end ${spread(walks.map(({ screensInAll }) => screensInAll))}; fixes tried ` +
      `${walks.reduce((sum, { fixes }) => sum + fixes, 0)}; right ends ${walks.filter(({ right }) => right).length}`,
  )
  if (values.trails)
    for (const { id, screens, right, trail } of walks)
      console.log(`  ${screens} ${right ? 'right' : 'wrong'} ${id}: ${trail.join(' ')}`)
}

/** Evenly over the list. */
const some = <T>(list: readonly T[], count: number): T[] =>
  list.filter((_, k) => Math.floor((k * count) / list.length) !== Math.floor(((k - 1) * count) / list.length))

async function toldWalks(prepared: Prepared, count: number): Promise<Walk[]> {
  const walks: Walk[] = []
  for (const { id, kind, complaint, observations, tried, causes } of some(readStories(), count))
    walks.push(
      await walkTold(prepared, shop, {
        ...{ id, kind, complaint, observations, tried },
        causes: causes.map((cause) => cause.id),
        danger: 'none-of-these',
      }),
    )
  return walks
}

/** A complaint of each kind in turn, and nothing else told, dangers included or not. */
async function silentWalks(prepared: Prepared, danger: Told['danger']): Promise<Walk[]> {
  const walks: Walk[] = []
  for (const kind of prepared.kinds.keys()) {
    const complaints = kindOf(prepared, kind).model.steps.flatMap((step) =>
      step.form === 'danger'
        ? []
        : step.questions.filter(({ sense, kind: sort }) => sense && sense !== 'story' && sort === 'yes-no'),
    )
    for (const { id } of some(complaints, 4))
      walks.push(
        await walkTold(prepared, shop, {
          ...{ id: `${kind} ${id}`, kind, danger, tried: [], causes: [] },
          complaint: { [id]: 'yes' },
          observations: {},
        }),
      )
  }
  return walks
}

async function drawnCourses(prepared: Prepared, count: number, allTold: boolean): Promise<Course[]> {
  const kinds = [...prepared.kinds.keys()]
  const courses: Course[] = []
  for (let k = 0; k < count; k++) {
    const kind = kinds[k % kinds.length]!
    const tool = drawTool(kindOf(prepared, kind).model, 700_001 + k)
    courses.push(await runCourse({ prepared, kind, shop, tool, policy: asTheProduct, allTold }))
  }
  return courses
}

const prepared = await prepare(loadKnowledge())
/** Steps that a phone's microphone settles. */
const byPhone = new Set(
  prepared.knowledge.steps
    .filter(({ questions }) => questions.some(({ heard }) => heard))
    .map(({ id }) => id),
)
if (Number(values.told) > 0) {
  print('told repairs', await toldWalks(prepared, Number(values.told)), 'mean 4, 90th 9')
  print('nothing told, no danger', await silentWalks(prepared, 'none-of-these'), 'most 6')
  print('nothing told, dangers neither', await silentWalks(prepared, 'cant-tell'), 'most 6')
}
if (Number(values.drawn) > 0) {
  printDrawn('all told', await drawnCourses(prepared, Number(values.drawn), true))
  printDrawn('as people can tell', await drawnCourses(prepared, Number(values.drawn), false))
}

function printDrawn(how: string, courses: readonly Course[]): void {
  const share = (end: Course['end']) => courses.filter((course) => course.end === end).length
  console.log(
    `drawn tools, ${how}: ${courses.length}; screens ${spread(courses.map(({ first }) => first))} (mark: mean 2.2, 90th 5)`,
  )
  const listened = courses.filter(({ trail }) => trail.some((it) => byPhone.has(it))).length
  console.log(
    `  to the very end ${spread(courses.map(({ screens }) => screens))}; listened to ${listened}; cured ${share('cured')}, sent in ` +
      `${share('sent-in')}, retired ${share('retired')}, set aside ${share('set-aside')}; mean cost ` +
      (courses.reduce((sum, { cost }) => sum + cost, 0) / courses.length).toFixed(2),
  )
  if (values.trails)
    for (const { first, end, trail } of courses) console.log(`  ${first} ${end}: ${trail.join(' ')}`)
}
