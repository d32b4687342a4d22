/** How people talk: a meaning can be turned round, and a word that steers a sentence does nothing else. */
import type { Speech } from '../../../shared/knowledge.js'
import { fileOf, type Check } from '../rulebook.js'

const saidOnce: Check = {
  name: 'said-once',
  description: 'A meaning lists a word once, and a word that steers a sentence stands in no second file.',
  run: (book) => {
    const steering = new Map<string, string>()
    for (const { id, role, words } of book.knowledge.speech) {
      if (steers(role)) for (const word of words) steering.set(word.toLowerCase(), id)
    }
    return book.knowledge.speech.flatMap(({ id, words }) =>
      words.flatMap((written, i) => {
        const word = written.toLowerCase()
        const [file, field] = [fileOf('speech', id), `words[${i}]`]
        if (words.findIndex((it) => it.toLowerCase() === word) < i) {
          return [{ file, field, message: `"${word}" is there twice`, remedy: 'remove one' }]
        }
        const other = steering.get(word)
        if (other === undefined || other === id) return []
        const message = `"${word}" stands in ${fileOf('speech', other)} too, where it steers how a sentence is read`
        return [{ file, field, message, remedy: 'keep it in one of them' }]
      }),
    )
  },
}

/** Little words may stand elsewhere too: there they tell something. */
const steers = (role: Speech['role']): boolean => role === 'not' || role === 'border' || role === 'ends'

export const speechChecks: readonly Check[] = [saidOnce]
