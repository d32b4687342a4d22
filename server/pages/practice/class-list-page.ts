/** The classes of a shop or school. */
import type { Written } from '../../../shared/person.js'
import type { PracticeClass } from '../../../shared/practice.js'
import type { Problem } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { writtenLines } from '../layout/written-words.js'
import { peopleWords } from './class-learners.js'
import { counted } from '../layout/words.js'

export interface ClassListPage {
  readonly frame: Frame
  readonly classes: readonly { readonly name: string; readonly href: string; readonly says: string }[]
  /** classes that are no more */
  readonly removed: readonly string[]
  readonly value: string
  readonly problems: readonly Problem[]
}

export function classListPage(
  classes: readonly (PracticeClass & { readonly people: number; readonly sets: number })[],
  removed: readonly Written[],
  refused: { readonly value: string; readonly problems: readonly Problem[] } | null = null,
): ClassListPage {
  const problems = refused?.problems ?? []
  return {
    frame: plainFrame(`${problems.length > 0 ? 'Error: ' : ''}Classes`, 'practice'),
    classes: classes.map(({ id, name, people, sets }) => ({
      name,
      href: `/practice/classes/${id}`,
      says: `${people === 0 ? 'nobody yet' : peopleWords(people)}, ${sets === 0 ? 'nothing set' : `${counted(sets, 'exercise')} set`}`,
    })),
    removed: writtenLines(removed, { removed: (name) => `“${name}” removed` }),
    value: refused?.value ?? '',
    problems,
  }
}
