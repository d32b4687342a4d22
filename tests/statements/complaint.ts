/**
 * Complaints with the statements that somebody of the trade would tick for them, written down before the program was
 * asked. Those told come from Open Repair Data (Open Repair Alliance, CC BY-SA 4.0, https://openrepair.org/open-data/),
 * by record, and from trade pages, in our words; the others are made up in the tone of short posts. The statements of
 * `tuned-on.json` were looked at while words and weights were set, those of `held-back.json` were not.
 */
import { readFileSync } from 'node:fs'
import { z } from 'zod'

export const Complaint = z.strictObject({
  kind: z.string(),
  words: z.string().min(1),
  means: z.array(z.string()).describe('any of these is right; none where nothing of the rulebook is meant'),
  record: z.string().optional().describe('of Open Repair Data'),
  from: z.enum(['a trade page', 'made up']).optional(),
})
export type Complaint = z.infer<typeof Complaint>

export function complaintsOf(file: 'tuned-on' | 'held-back'): readonly Complaint[] {
  const text = readFileSync(new URL(`./${file}.json`, import.meta.url), 'utf8')
  return z.array(Complaint).parse(JSON.parse(text))
}
