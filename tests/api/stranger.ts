/** The model as a stranger has it: from `GET /api/rulebook` alone, with no code of the server. */
import type { RulebookView } from '../../shared/api.js'

export interface Told {
  readonly answers: Record<string, string | number>
  readonly fixesTried: string[]
  readonly answeredAfter: Record<string, number>
}
type Condition = RulebookView['stops'][number]['when'] | { fact: string; operator: string; value: unknown }
type FindingView = RulebookView['findings'][number]

function holds(condition: Condition, fact: (id: string) => unknown): boolean {
  if ('all' in condition) return condition.all.every((it) => holds(it, fact))
  if ('any' in condition) return condition.any.some((it) => holds(it, fact))
  const [is, value] = [fact(condition.fact), condition.value]
  if (condition.operator === 'equal') return is === value
  if (condition.operator === 'in') return (value as unknown[]).includes(is)
  if (typeof is !== 'number') return false
  if (condition.operator === 'lessThan') return is < (value as number)
  if (condition.operator === 'lessThanInclusive') return is <= (value as number)
  return condition.operator === 'greaterThan' ? is > (value as number) : is >= (value as number)
}

/** Each finding as the answers have it; of a tool that does not run, a "no" to what shows running is unknown. */
function statesOf(book: RulebookView, { answers }: Told): Map<string, string> {
  const stateOf = ({ question, when }: FindingView): string => {
    const answer = answers[question]
    if (answer === undefined) return 'unknown'
    return answer === 'cant-tell' ? answer : holds(when, (id) => answers[id]) ? 'yes' : 'no'
  }
  const given = new Map(book.findings.map((finding) => [finding.id, stateOf(finding)]))
  const still = book.relevance.some(
    ({ when, hides }) => hides.running && holds(when, (id) => given.get(id) ?? 'unknown'),
  )
  if (!still) return given
  return new Map(
    book.findings.map(({ id, running }) => [
      id,
      running && given.get(id) === 'no' ? 'unknown' : given.get(id)!,
    ]),
  )
}

export function evidenceOf(book: RulebookView, told: Told) {
  const states = statesOf(book, told)
  const topics = new Set<string>()
  return book.findings.flatMap((finding) => {
    const state = states.get(finding.id)
    if ((state !== 'yes' && state !== 'no') || topics.has(finding.topic ?? '')) return []
    if (finding.topic !== null) topics.add(finding.topic)
    return [{ finding, present: state === 'yes', after: told.answeredAfter[finding.question] ?? 0 }]
  })
}

/**
 * P(there now) and P(it alone is there now) by inclusion and exclusion over the positive findings
 * (Heckerman's Quickscore, UAI 1989). It subtracts, so it is good to about 1e-8 for up to four of them.
 */
export function scoreByQuickscore(book: RulebookView, told: Told): Map<string, [number, number]> {
  const evidence = evidenceOf(book, told)
  const positives = evidence.filter(({ present }) => present)
  const sums = book.causes.map((): [number, number] => [0, 0])
  let all = 0
  for (let subset = 0; subset < 2 ** positives.length; subset++) {
    const chosen = positives.filter((_, k) => subset & (1 << k))
    const silent = [...evidence.filter(({ present }) => !present), ...chosen]
    const sign = chosen.length % 2 === 0 ? 1 : -1
    const scale = silent.reduce((product, { finding }) => product * (1 - finding.leak), sign)
    /** [absent, absent or cured, still there] */
    const parts = book.causes.map(({ id, prior }) => {
      const unseen = (until: number) =>
        silent
          .filter(({ after }) => after < until)
          .reduce((product, { finding }) => product * (1 - (finding.strengths[id] ?? 0)), 1)
      let [gone, left] = [1 - prior, prior]
      told.fixesTried.forEach((fix, k) => {
        const again = told.fixesTried.indexOf(fix) < k
        const chance = again ? 0 : (book.fixes.find((it) => it.id === fix)?.cures[id] ?? 0)
        gone += left * chance * unseen(k + 1)
        left *= 1 - chance
      })
      return [1 - prior, gone, left * unseen(Infinity)] as const
    })
    const product = (factor: (i: number) => number) => book.causes.reduce((so, _, i) => so * factor(i), scale)
    const usual = (i: number, whole: boolean) => {
      const [absent, gone, left] = parts[i]!
      return book.causes[i]!.exclusive ? absent : whole ? gone + left : gone
    }
    const anything = product((i) => usual(i, true))
    const nothing = product((i) => usual(i, false))
    all += anything - nothing
    book.causes.forEach(({ exclusive }, i) => {
      const [, gone, left] = parts[i]!
      const alone = exclusive ? product((j) => (j === i ? left : parts[j]![0])) : (nothing / gone) * left
      sums[i]![0] += exclusive ? alone : (anything / (gone + left)) * left
      sums[i]![1] += alone
      if (exclusive) all += alone
    })
  }
  return new Map(book.causes.map(({ id }, i) => [id, [sums[i]![0] / all, sums[i]![1] / all]]))
}

/** Every answer that makes a difference: the ends of a range, its thresholds, and values between. */
export function answersTo(book: RulebookView, id: string): (string | number)[] {
  const question = book.questions.find((it) => it.id === id)!
  if (question.kind === 'yes-no') return ['yes', 'no']
  const thresholds = book.findings
    .filter((it) => it.question === id)
    .flatMap(({ when }) =>
      [...JSON.stringify(when).matchAll(/"value":(-?[\d.]+)/g)].map(([, it]) => Number(it)),
    )
  const [low, high] = [question.min ?? Math.min(...thresholds), question.max ?? Math.max(...thresholds)]
  const marks = [...new Set([low, ...thresholds, high])].sort((a, b) => a - b)
  return marks.flatMap((mark, k) => (k === 0 ? [mark] : [(marks[k - 1]! + mark) / 2, mark]))
}

/** The answer that fits best to findings drawn by noisy-OR for a tool with these causes. */
export function drawnAnswer(
  book: RulebookView,
  id: string,
  there: ReadonlySet<string>,
  chance: () => number,
): string | number {
  const findings = book.findings.filter((it) => it.question === id)
  const drawn = findings.map(({ leak, strengths }) => {
    const miss = [...there].reduce((so, cause) => so * (1 - (strengths[cause] ?? 0)), 1 - leak)
    return chance() < 1 - miss
  })
  const fit = (answer: string | number) =>
    findings.filter(({ when }, k) => holds(when, () => answer) === drawn[k]).length
  return answersTo(book, id).reduce((best, it) => (fit(it) > fit(best) ? it : best))
}
