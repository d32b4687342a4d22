/** What a trial comes to in the files of the rulebook, to be pasted there by whoever wants to keep it. */
import type { Knowledge } from '../../shared/knowledge.js'
import { strongestFirst } from '../rulebook/usual-order.js'

/** One field of one file, as `npm run fix:rules` would leave it. */
export interface Paste {
  /** path from the project's root */
  readonly file: string
  readonly field: string
  /** is the field in the file now? if not it is to be added as the last one */
  readonly there: boolean
  /** the lines to put in place of those of the field, with its name and the indentation of the file */
  readonly text: string
}

const fields = { findings: ['leak', 'strengths', 'forKind'], causes: ['shares'] } as const

/** Every field that differs, file by file in the order of the rulebook. */
export function pastes(before: Knowledge, after: Knowledge): readonly Paste[] {
  return (Object.keys(fields) as (keyof typeof fields)[]).flatMap((folder) =>
    (after[folder] as readonly Entry[]).flatMap((entry, i) => {
      const was = before[folder][i] as Entry | undefined
      if (entry === was) return []
      return fields[folder].flatMap((field): Paste[] =>
        JSON.stringify(entry[field]) === JSON.stringify(was?.[field])
          ? []
          : [
              {
                file: `rules/${folder}/${entry.id}.json`,
                field,
                there: was?.[field] !== undefined,
                text: linesOf(field, entry[field]),
              },
            ],
      )
    }),
  )
}

type Entry = { readonly id: string } & Readonly<Record<string, unknown>>

/** Objects over several lines: that is a form which the formatter leaves as it is. A comma, unless it is the last field. */
function linesOf(field: string, value: unknown): string {
  const listed = field === 'strengths' ? strongestFirst(value as Parameters<typeof strongestFirst>[0]) : value
  const lines = JSON.stringify({ [field]: listed }, null, 2)
    .split('\n')
    .slice(1, -1)
  return lines.join('\n') + (field === 'forKind' ? '' : ',')
}
