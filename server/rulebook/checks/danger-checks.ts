/** Danger comes first, and every danger can be found. */
import { comparisonsOf } from '../../../shared/conditions.js'
import { canHold } from '../satisfiable.js'
import { questionOf } from '../../../shared/finding-rule.js'
import { fileOf, isAskedIn, listed, type Check, type Rulebook } from '../rulebook.js'

const oneDangerStep: Check = {
  name: 'one-danger-step',
  description: 'Each kind has exactly one step of the form "danger", and it comes before every other step.',
  needs: ['steps'],
  run: (book) =>
    book.knowledge.kinds.flatMap(({ id }) => {
      const steps = book.knowledge.steps.filter((it) => it.kinds.includes(id))
      const [danger, ...others] = steps.filter((it) => it.form === 'danger')
      if (danger === undefined) {
        const message = 'no step asks for its danger signs'
        return [
          { file: fileOf('kinds', id), field: '', message, remedy: 'add a step of the form "danger" for it' },
        ]
      }
      const earlier = steps.filter((it) => it.form !== 'danger' && it.order <= danger.order)
      return [
        ...others.map((it) => ({
          file: fileOf('steps', it.id),
          field: 'form',
          message: `${id} has another danger step, ${fileOf('steps', danger.id)}`,
          remedy: 'put the danger signs on one screen',
        })),
        ...(earlier.length === 0
          ? []
          : [
              {
                file: fileOf('steps', danger.id),
                field: 'order',
                message: `${listed(earlier.map((it) => it.id))} would come before the danger signs`,
                remedy: `give it an order below ${Math.min(...earlier.map((it) => it.order))}`,
              },
            ]),
      ]
    }),
}

const stopReachable: Check = {
  name: 'stop-reachable',
  description: 'The findings that make a stop are asked for, in every kind that has the stop.',
  needs: ['findings', 'steps', 'fixes'],
  run: (book) =>
    book.knowledge.stops.flatMap((stop) => {
      const without = stop.kinds.filter(
        (kind) =>
          !canHold(stop.when, (fact) => {
            const finding = book.knowledge.findings.find((it) => it.id === fact && it.kinds.includes(kind))
            const asked = finding !== undefined && isAskedIn(book, questionOf(finding), kind)
            return { values: asked ? ['yes', 'no', 'cant-tell', 'unknown'] : ['unknown'] }
          }),
      )
      if (without.length === 0) return []
      const message = `no question for ${listed(without)} can lead to this stop`
      return [
        { file: fileOf('stops', stop.id), field: 'when', message, remedy: 'ask for its findings in a step' },
      ]
    }),
}

const stopNeedsAnswer: Check = {
  name: 'stop-needs-answer',
  description: 'A stop does not hold while nothing is known.',
  run: (book) =>
    book.knowledge.stops
      .filter((stop) => canHold(stop.when, () => ({ values: ['unknown'] })))
      .map((stop) => ({
        file: fileOf('stops', stop.id),
        field: 'when',
        message: 'it holds before anybody has answered anything',
        remedy: 'compare a finding with "yes", "no" or "cant-tell"',
      })),
}

/** Words on a danger line, and in the first thing that a stop says: read with a tool in the hand. */
const mostWords = { line: 9, first: 12 }
const wordsIn = (text: string): number => text.split(/\s+/).length

const dangerLines: Check = {
  name: 'danger-lines',
  description: `A danger line has at most ${mostWords.line} words, leads to a stop, and the most urgent come first.`,
  needs: ['findings', 'stops'],
  run: (book) =>
    book.knowledge.steps
      .filter(({ form }) => form === 'danger')
      .flatMap((step) => {
        const file = fileOf('steps', step.id)
        const problem = (i: number, message: string, remedy: string) => ({
          file,
          field: `questions[${i}]`,
          message,
          remedy,
        })
        let before = -Infinity
        return step.questions.flatMap(({ id, statement }, i) => {
          const urgency = urgencyOf(book, id, step.kinds)
          const problems = []
          if (wordsIn(statement) > mostWords.line)
            problems.push(
              problem(
                i,
                `${wordsIn(statement)} words are too many for a danger line`,
                `say it in ${mostWords.line}, and the rest in "help"`,
              ),
            )
          if (urgency === undefined)
            problems.push(problem(i, `"${id}" leads to no stop`, 'ask it in another step, or add the stop'))
          else if (urgency < before)
            problems.push(
              problem(
                i,
                `its stop is more urgent than that of the line before`,
                'put the lines into the order of their stops',
              ),
            )
          before = Math.max(before, urgency ?? before)
          return problems
        })
      }),
}

const gatheredLines: Check = {
  name: 'gathered-lines',
  description: `A line gathers danger signs of its own step, each once, in at most ${mostWords.line} words.`,
  run: (book) =>
    book.knowledge.steps.flatMap(({ id, form, questions, gathered }) => {
      const at = (field: string, message: string, remedy: string) => ({
        file: fileOf('steps', id),
        field,
        message,
        remedy,
      })
      if (form !== 'danger' && gathered.length > 0)
        return [at('gathered', 'only danger signs are gathered', 'leave it out here')]
      const seen = new Set<string>()
      return gathered.flatMap(({ line, questions: ids }, i) => [
        ...(wordsIn(line) > mostWords.line
          ? [
              at(
                `gathered[${i}].line`,
                `${wordsIn(line)} words are too many for a danger line`,
                `say it in ${mostWords.line}`,
              ),
            ]
          : []),
        ...ids.flatMap((sign, k) => {
          const [again, own] = [seen.has(sign), questions.some((question) => question.id === sign)]
          seen.add(sign)
          if (own && !again) return []
          const message = again ? `"${sign}" is gathered twice` : `"${sign}" is no question of this step`
          return [at(`gathered[${i}].questions[${k}]`, message, 'name each danger sign of this step once')]
        }),
      ])
    }),
}

/** Place of the most urgent stop that a yes can lead to: set aside before off the client. */
function urgencyOf({ knowledge }: Rulebook, question: string, kinds: readonly string[]): number | undefined {
  const over = new Set(knowledge.findings.flatMap((it) => (questionOf(it) === question ? [it.id] : [])))
  const places = knowledge.stops.flatMap(({ when, kinds: its, grade, order = 0 }) =>
    its.some((kind) => kinds.includes(kind)) && comparisonsOf(when).some(({ fact }) => over.has(fact))
      ? [order + (grade === 'set-aside' ? 0 : 1000)]
      : [],
  )
  return places.length === 0 ? undefined : Math.min(...places)
}

const stopBeginsShort: Check = {
  name: 'stop-begins-short',
  description: `The first thing that a stop says to do has at most ${mostWords.first} words.`,
  run: (book) =>
    book.knowledge.stops.flatMap(({ id, now, forKind = {} }) =>
      [
        ['now[0]', now] as const,
        ...Object.entries(forKind).map(([kind, own]) => [`forKind.${kind}.now[0]`, own.now] as const),
      ].flatMap(([field, lines]) =>
        lines === undefined || wordsIn(lines[0]!) <= mostWords.first
          ? []
          : [
              {
                file: fileOf('stops', id),
                field,
                message: `${wordsIn(lines[0]!)} words are too many to begin with`,
                remedy: `say in ${mostWords.first} what to do with the thing in the hand`,
              },
            ],
      ),
    ),
}

const runningFix: Check = {
  name: 'running-fix',
  description: 'A fix that is done with the tool ready to run says so.',
  needs: ['setups'],
  run: ({ knowledge }) =>
    knowledge.fixes.flatMap(({ id, setups, power }) => {
      const off = setups.some((it) => knowledge.setups.find((setup) => setup.id === it)?.withPower === false)
      if (off || power) return []
      const message = 'nothing takes its power away, yet it is not said to run'
      return [
        { file: fileOf('fixes', id), field: 'power', message, remedy: 'set it to true, or add the set-up' },
      ]
    }),
}

export const dangerChecks: readonly Check[] = [
  oneDangerStep,
  stopReachable,
  stopNeedsAnswer,
  dangerLines,
  gatheredLines,
  stopBeginsShort,
  runningFix,
]
