/** Lessons: confusions that some kind can have, told apart by what really points somewhere; hearsay about what there is. */
import { asFor, bookOf } from '../../../shared/book-of-kind.js'
import { questionOf, strengthIn } from '../../../shared/finding-rule.js'
import type { Confusion, Hearsay, Kind, Knowledge } from '../../../shared/knowledge.js'
import { takesApart } from '../../../shared/taken-apart.js'
import type { RulebookProblem } from '../../errors.js'
import { fileOf, listed, type Check, type Rulebook } from '../rulebook.js'

/** Kinds that can have two of the rivals, each with the confusion as it stands there. */
function where({ knowledge }: Rulebook, id: string): { kind: Kind; own: Knowledge; confusion: Confusion }[] {
  return knowledge.kinds.flatMap((kind) => {
    const own = bookOf(knowledge, kind.id)
    const confusion = own.confusions.find((it) => it.id === id)
    return confusion ? [{ kind, own, confusion }] : []
  })
}

const rivalsMeet: Check = {
  name: 'rivals-meet',
  description: 'Some kind can have two rivals of a confusion, and no rival is one that never meets another.',
  needs: ['kinds', 'causes', 'findings'],
  run: (book) =>
    book.knowledge.confusions.flatMap((it): RulebookProblem[] => {
      const file = fileOf('confusions', it.id)
      const met = new Set(where(book, it.id).flatMap(({ confusion }) => confusion.rivals))
      if (met.size === 0) {
        const message = 'no kind can have two of its rivals'
        return [
          { file, field: 'rivals', message, remedy: 'name causes that stand side by side in some kind' },
        ]
      }
      return it.rivals.flatMap((rival, i) =>
        met.has(rival) || !book.causesById.has(rival)
          ? []
          : [
              {
                file,
                field: `rivals[${i}]`,
                message: `"${rival}" meets no other of the rivals in any kind`,
                remedy: 'remove it, or add the cause to a kind that has another',
              },
            ],
      )
    }),
}

const splitterSplits: Check = {
  name: 'splitter-splits',
  description:
    'What tells rivals apart points to rivals, not to all of them, and by the strengths of its finding.',
  needs: ['kinds', 'causes', 'findings'],
  run: (book) =>
    book.knowledge.confusions.flatMap((it) =>
      it.splitters.flatMap(({ finding, pointsTo }, i): RulebookProblem[] => {
        const file = fileOf('confusions', it.id)
        const field = `splitters[${i}].pointsTo`
        const strangers = pointsTo.filter((cause) => !it.rivals.includes(cause))
        if (strangers.length > 0) {
          const message = `${listed(strangers.map((id) => `"${id}"`))} is none of its rivals`
          return [{ file, field, message, remedy: 'name it among the rivals, or leave it out here' }]
        }
        if (it.rivals.every((cause) => pointsTo.includes(cause))) {
          const message = 'it points to every rival, so it tells none of them from another'
          return [{ file, field, message, remedy: 'leave out those that a no speaks for' }]
        }
        const told = book.knowledge.findings.find(({ id }) => id === finding)
        if (!told) return []
        const speaks = book.knowledge.kinds.some((kind) =>
          pointsTo.some((cause) => strengthIn(told, cause, kind.id) !== undefined),
        )
        if (speaks) return []
        const message = `${fileOf('findings', finding)} speaks for none of these`
        return [{ file, field, message, remedy: 'give it a strength there, or name another finding' }]
      }),
    ),
}

const confusionAsked: Check = {
  name: 'confusion-asked',
  description:
    'In every kind that has a confusion one of its telling questions has rivals on both sides, and two of its checks are asked.',
  needs: ['kinds', 'causes', 'findings', 'steps', 'fixes'],
  run: (book) =>
    book.knowledge.confusions.flatMap(({ id }) =>
      where(book, id).flatMap(({ kind, confusion }): RulebookProblem[] => {
        const file = fileOf('confusions', id)
        const splits = confusion.splitters.some(
          ({ pointsTo }) => pointsTo.length > 0 && pointsTo.length < confusion.rivals.length,
        )
        return [
          ...(splits
            ? []
            : [
                {
                  file,
                  field: 'splitters',
                  message: `for "${kind.id}" none of them has rivals on both sides`,
                  remedy: 'add one that tells its rivals apart there',
                },
              ]),
          ...(confusion.checks.length > 1
            ? []
            : [
                {
                  file,
                  field: 'checks',
                  message: `"${kind.id}" is asked fewer than two of them`,
                  remedy: 'add what is looked for there',
                },
              ]),
        ]
      }),
    ),
}

const opensLast: Check = {
  name: 'opens-last',
  description: 'Of the checks of a confusion those that open the tool come after those that do not.',
  needs: ['kinds', 'setups', 'findings', 'steps', 'fixes'],
  run: (book) =>
    book.knowledge.confusions.flatMap(({ id }) => {
      const turned = where(book, id).flatMap(({ own, confusion }) => {
        const opening = confusion.checks.map((check) => opensFor(own, check))
        return confusion.checks.flatMap((check, i) => {
          const earlier = confusion.checks.find((_, k) => k < i && opening[k] === true)
          return opening[i] === false && earlier !== undefined ? [{ check, earlier }] : []
        })
      })
      const told = new Map(turned.map((it) => [it.check, it]))
      return [...told.values()].map(({ check, earlier }) => ({
        file: fileOf('confusions', id),
        field: 'checks',
        message: `"${check}" needs no opening and stands after "${earlier}", which does`,
        remedy: 'put what is safe and cheap first',
      }))
    }),
}

/** Does looking for it open the tool, whichever way it is asked? Undefined where it is not asked in the kind. */
function opensFor(own: Knowledge, finding: string): boolean | undefined {
  const told = own.findings.find(({ id }) => id === finding)
  const question = told && questionOf(told)
  const asks = [
    ...own.steps.filter(({ questions }) => questions.some(({ id }) => id === question)),
    ...own.fixes.filter(({ outcome }) => outcome?.id === question),
  ]
  return asks.length === 0 ? undefined : asks.every(({ setups }) => takesApart(own.setups, setups))
}

const hearsayFits: Check = {
  name: 'hearsay-fits',
  description:
    'Every kind that hearsay is for has the part that it is about, and one of the causes that it touches.',
  needs: ['kinds', 'causes'],
  run: (book) =>
    book.knowledge.hearsay.flatMap((it) =>
      book.knowledge.kinds
        .filter(({ id }) => it.kinds.includes(id))
        .flatMap((kind) => [...partOf(it, kind), ...causeOf(book, it, kind)]),
    ),
}

function partOf(hearsay: Hearsay, kind: Kind): RulebookProblem[] {
  const { part } = asFor(hearsay, kind.id)
  if (kind.parts.some(({ id }) => id === part)) return []
  return [
    {
      file: fileOf('hearsay', hearsay.id),
      field: hearsay.forKind?.[kind.id]?.part === undefined ? 'part' : `forKind.${kind.id}.part`,
      message: `${fileOf('kinds', kind.id)} has no part "${part}"`,
      remedy: `use one of ${kind.parts.map(({ id }) => id).join(', ')}`,
    },
  ]
}

function causeOf(book: Rulebook, { id, causes }: Hearsay, kind: Kind): RulebookProblem[] {
  if (causes.some((cause) => book.causesById.get(cause)?.shares[kind.id] !== undefined)) return []
  const message = `"${kind.id}" can have none of these`
  return [{ file: fileOf('hearsay', id), field: 'causes', message, remedy: 'name one that it can have' }]
}

export const lessonChecks: readonly Check[] = [
  rivalsMeet,
  splitterSplits,
  confusionAsked,
  opensLast,
  hearsayFits,
]
