/** Care begins only such wear anew as it prevents, by the calendar, and each wear of a kind by one task. */
import { fileOf, type Check } from '../rulebook.js'

const resetsWhatItPrevents: Check = {
  name: 'resets-what-it-prevents',
  description: 'What a care task resets it prevents, in a task that goes by days.',
  run: (book) =>
    book.knowledge.care.flatMap(({ id, resets, prevents, everyDays }) =>
      Object.keys(resets).flatMap((cause) => {
        const [file, field] = [fileOf('care', id), `resets.${cause}`]
        if (!prevents.includes(cause))
          return [{ file, field, message: `it does not prevent "${cause}"`, remedy: 'add it to prevents' }]
        if (everyDays === undefined)
          return [{ file, field, message: 'the task has no everyDays to compare with', remedy: 'add them' }]
        return []
      }),
    ),
}

const oneClockAWear: Check = {
  name: 'one-clock-a-wear',
  description: 'In one kind, a cause is reset by one care task at most.',
  run: (book) => {
    const first = new Map<string, string>()
    return book.knowledge.care.flatMap(({ id, kinds, resets }) =>
      Object.keys(resets).flatMap((cause) =>
        kinds.flatMap((kind) => {
          const other = first.get(`${kind} ${cause}`)
          first.set(`${kind} ${cause}`, other ?? id)
          if (other === undefined || other === id) return []
          const message = `in ${kind}, ${fileOf('care', other)} resets "${cause}" already`
          return [
            { file: fileOf('care', id), field: `resets.${cause}`, message, remedy: 'keep it in one of them' },
          ]
        }),
      ),
    )
  },
}

export const careChecks: readonly Check[] = [resetsWhatItPrevents, oneClockAWear]
