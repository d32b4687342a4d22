/** Who changed a class, what was set for it and its lessons. */
import type { Written } from '../../../shared/person.js'
import { writtenLines } from '../layout/written-words.js'
import type { ClassWork } from './class-work.js'
import { kindName, levelName } from './found-words.js'
import { partWords } from './lesson-room-page.js'

/** Names are those of today; who has left the class, and what was removed, is told by what it was. */
export function classLines(
  { knowledge, learners, sets }: Pick<ClassWork, 'knowledge' | 'learners' | 'sets'>,
  written: readonly Written[],
): readonly string[] {
  const who = (id: string) => learners.find((it) => it.id === id)?.name ?? 'a learner'
  const set = (id: string) => {
    const found = sets.find((it) => it.id === id)
    return found ? `${kindName(knowledge, found.kind)}, ${levelName(knowledge, found.level)}` : 'an exercise'
  }
  return writtenLines(written, {
    joined: (id) => `${who(id)} added`,
    renamed: (id) => `${who(id)} renamed`,
    signed: (id) => `skills of ${who(id)} signed`,
    struck: (id) => `a signature of ${who(id)} struck out`,
    left: () => 'a learner moved to another class',
    set: (id) => `${set(id)} set`,
    closed: (id) => `${set(id)} closed for all`,
    unset: () => 'an exercise removed',
    lesson: (part) => `lesson, ${partName(part)}`,
  })
}

const partName = (part: string): string =>
  Object.entries(partWords)
    .find(([id]) => id === part)?.[1]
    .name.toLowerCase() ?? part
