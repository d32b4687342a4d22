/** All that a sheet of skills can hold for some kinds of tool, whether an exercise showed it or not. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { SignedOff } from '../../shared/practice.js'
import { Shown } from '../../shared/practice.js'
import type { SkillRow } from './skills.js'
import { keyOfSkill } from './skills.js'

const safeHands = ['dangers-first', 'plug-out-first', 'disinfected', 'set-aside'] as const

/** In the order of the sheet: safe hands, repairs, checks, causes; each by kind in rulebook order. */
export function signableOf(knowledge: Knowledge, kinds: readonly string[]): (Shown & { key: string })[] {
  const books = knowledge.kinds
    .map(({ id }) => id)
    .filter((id) => kinds.includes(id))
    .map((kind) => ({ kind, book: bookOf(knowledge, kind) }))
  const each = (skill: Shown['skill'], subjects: (book: Knowledge) => readonly string[]): Shown[] =>
    books.flatMap(({ kind, book }) => subjects(book).map((subject) => ({ skill, kind, subject })))
  return [
    ...safeHands.flatMap((skill) => each(skill, () => [''])),
    ...each('mended', ({ fixes }) => fixes.map(({ id }) => id)),
    ...each('looked', ({ steps }) => steps.filter(({ form }) => form === 'check').map(({ id }) => id)),
    ...each('found', ({ causes }) => causes.map(({ id }) => id)),
  ].map((shown) => ({ ...shown, key: keyOfSkill(shown) }))
}

/** The rows with those that were signed although no exercise showed them: the instructor saw it with real tools. */
export function withSignedByHand(rows: readonly SkillRow[], signed: readonly SignedOff[]): SkillRow[] {
  const shown = new Set(rows.map(({ key }) => key))
  const byHand = signed
    .filter(({ skill }) => !shown.has(skill))
    .flatMap((signature) => {
      const [skill, kind, subject = ''] = signature.skill.split('|')
      const read = Shown.safeParse({ skill, kind, subject })
      if (!read.success) return []
      return [
        {
          ...read.data,
          key: signature.skill,
          times: 0,
          first: '',
          last: '',
          apart: false,
          signed: signature,
        },
      ]
    })
  return [...rows, ...byHand]
}
