/** One name, one thing: stored cases point at ids, so an id must never mean two things or none. */
import type { RulebookProblem } from '../../errors.js'
import type { Folder } from '../../../shared/knowledge.js'
import { fileOf, type Check } from '../rulebook.js'

const questionAskedOnce: Check = {
  name: 'question-asked-once',
  description: 'A question is asked by one step or fix only in each kind: one answer, one fact.',
  run: (book) =>
    book.asked.flatMap((it, i) => {
      const first = book.asked.findIndex(
        (other) => other.question.id === it.question.id && isInSameKind(other.by, it.by),
      )
      if (first === i || first < 0) return []
      const other = book.asked[first]!
      return [
        {
          file: fileOf(it.folder, it.by.id),
          field: `${it.field}.id`,
          message: `the question "${it.question.id}" is asked by ${fileOf(other.folder, other.by.id)} already`,
          remedy: 'ask it in one place, or give it another id',
        },
      ]
    }),
}

const stepOrFix: Check = {
  name: 'step-or-fix',
  description: 'No step and fix share an id: "cannot do it here" is stored with the id alone.',
  run: (book) =>
    book.knowledge.fixes
      .filter((fix) => book.ids.get('steps')!.has(fix.id))
      .map((fix) => ({
        file: fileOf('fixes', fix.id),
        field: '',
        message: `${fileOf('steps', fix.id)} has the same id`,
        remedy: 'rename one of the two files',
      })),
}

const partOnce: Check = {
  name: 'part-once',
  description: 'A kind lists each of its parts once.',
  run: (book) =>
    book.knowledge.kinds.flatMap(({ id, parts }) =>
      parts.flatMap((part, i) =>
        parts.findIndex((it) => it.id === part.id) === i
          ? []
          : [
              {
                file: fileOf('kinds', id),
                field: `parts[${i}].id`,
                message: `the part "${part.id}" is listed twice`,
                remedy: 'remove one or rename it',
              },
            ],
      ),
    ),
}

const movedIds: Check = {
  name: 'moved-ids',
  description:
    'rules/moved.json leads from ids that are gone to ids that are there; "questions" may be moved as well.',
  needs: ['steps', 'fixes'],
  run: (book) =>
    Object.entries(book.knowledge.moved).flatMap(([folder, moves]) => {
      const ids = folder === 'questions' ? new Set(book.askedById.keys()) : book.ids.get(folder as Folder)
      const at = (field: string, message: string, remedy: string): RulebookProblem => ({
        file: 'rules/moved.json',
        field,
        message,
        remedy,
      })
      if (ids === undefined) {
        const known = [...book.ids.keys(), 'questions'].join(', ')
        return [at(folder, 'there is no such folder', `use one of ${known}`)]
      }
      return Object.entries(moves).flatMap(([old, now]) => [
        ...(ids.has(old)
          ? [at(`${folder}.${old}`, `"${old}" is still there`, 'remove this line or the old one')]
          : []),
        ...(ids.has(now) || book.unreadable.has(`${folder}/${now}`)
          ? []
          : [
              at(
                `${folder}.${old}`,
                `it leads to "${now}", which is not there`,
                'name the id that took its place',
              ),
            ]),
      ])
    }),
}

export const idChecks: readonly Check[] = [questionAskedOnce, stepOrFix, partOnce, movedIds]

function isInSameKind(a: ForKinds, b: ForKinds): boolean {
  return a.kinds.some((kind) => b.kinds.includes(kind))
}

interface ForKinds {
  readonly kinds: readonly string[]
}
