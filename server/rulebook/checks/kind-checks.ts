/** What belongs together belongs to the same kind of tool. */
import { asFor } from '../../../shared/book-of-kind.js'
import type { Fix, Setup, Step } from '../../../shared/knowledge.js'
import { fileOf, listed, type Check, type Rulebook } from '../rulebook.js'

const pointsWithinKind: Check = {
  name: 'points-within-kind',
  description:
    'A finding points to causes that its kinds can have; a map of strengths names kinds that have both.',
  run: (book) =>
    book.knowledge.findings.flatMap(({ id, kinds, strengths }) =>
      Object.entries(strengths).flatMap(([cause, strength]) => {
        const field = `strengths.${cause}`
        if (typeof strength === 'number') return outside(book, fileOf('findings', id), field, cause, kinds)
        return Object.keys(strength).flatMap((kind) =>
          kinds.includes(kind)
            ? outside(book, fileOf('findings', id), `${field}.${kind}`, cause, [kind])
            : [
                {
                  file: fileOf('findings', id),
                  field: `${field}.${kind}`,
                  message: `"${kind}" is not one of this finding's kinds (${listed(kinds)})`,
                  remedy: 'add it to kinds or remove this strength',
                },
              ],
        )
      }),
    ),
}

const curesWithinKind: Check = {
  name: 'cures-within-kind',
  description: 'A fix cures causes that its kinds can have.',
  run: (book) =>
    book.knowledge.fixes.flatMap(({ id, kinds, cures }) =>
      Object.keys(cures).flatMap((cause) =>
        outside(book, fileOf('fixes', id), `cures.${cause}`, cause, kinds),
      ),
    ),
}

const preventsWithinKind: Check = {
  name: 'prevents-within-kind',
  description: 'A care task prevents causes that its kinds can have.',
  run: (book) =>
    book.knowledge.care.flatMap(({ id, kinds, prevents }) =>
      prevents.flatMap((cause, i) => outside(book, fileOf('care', id), `prevents[${i}]`, cause, kinds)),
    ),
}

const needsWithinKind: Check = {
  name: 'needs-within-kind',
  description: 'A set-up is there for every kind of the step, fix or set-up that needs it.',
  run: (book) => {
    const setups = new Map(book.knowledge.setups.map((it) => [it.id, it]))
    const users = [
      ...book.knowledge.steps.map((entry) => ({ folder: 'steps' as const, field: 'setups', entry })),
      ...book.knowledge.fixes.map((entry) => ({ folder: 'fixes' as const, field: 'setups', entry })),
      ...book.knowledge.setups.map((entry) => ({ folder: 'setups' as const, field: 'needs', entry })),
    ]
    return users.flatMap(({ folder, field, entry }) => {
      const neededFor = (kind: string): readonly string[] => {
        const there = asFor<Setup | Step | Fix>(entry, kind)
        return 'needs' in there ? there.needs : there.setups
      }
      const wanted = new Set(entry.kinds.flatMap(neededFor))
      return [...wanted].flatMap((id) => {
        const without = entry.kinds.filter(
          (kind) => setups.get(id)?.kinds.includes(kind) === false && neededFor(kind).includes(id),
        )
        if (without.length === 0) return []
        return [
          {
            file: fileOf(folder, entry.id),
            field,
            message: `${fileOf('setups', id)} is not for ${listed(without)}`,
            remedy: 'add the kind there, use another set-up, or say under forKind what it needs instead',
          },
        ]
      })
    })
  },
}

/** The problem of a cause that has no share in any of these kinds; none for an unknown cause. */
function outside(book: Rulebook, file: string, field: string, cause: string, kinds: readonly string[]) {
  const shares = book.causesById.get(cause)?.shares
  if (shares === undefined || kinds.some((kind) => shares[kind] !== undefined)) return []
  return [
    {
      file,
      field,
      message: `${fileOf('causes', cause)} has no share for ${listed(kinds)}`,
      remedy: 'give it one there or remove it here',
    },
  ]
}

export const kindChecks: readonly Check[] = [
  pointsWithinKind,
  curesWithinKind,
  preventsWithinKind,
  needsWithinKind,
]
