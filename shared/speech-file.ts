/** How people talk of their tool: words and phrases that mean one thing. */
import { z } from 'zod'
import { SpeechId } from './ids.js'
import { Note, Schema, Source } from './rule-fields.js'

const Phrase = z
  .string()
  .trim()
  .min(1)
  .max(60)
  .describe('one word or several, any case, any form of a word; # stands for a number')

/** One meaning, named by its file: every word and phrase for it, slang and other languages' English included. */
export const SpeechFile = z.strictObject({
  $schema: Schema,
  role: z
    .enum(['little', 'number', 'not', 'begins', 'ends', 'opens', 'border'])
    .optional()
    .describe(
      'absent where it is a meaning only. little: tells nothing; number: a number written out; not: turns the next ' +
        'meaning round; ends: the same before a word in -ing ("stopped cutting"), else a meaning; begins: tells ' +
        'nothing before a word in -ing ("started smoking"), else what other files say of it; opens: a meaning ' +
        'that begins a clause ("since"); border: parts two clauses ("but")',
    ),
  words: z.array(Phrase).min(1),
  opposite: SpeechId.optional().describe('the meaning that "not" makes of it, such as dead of go'),
  source: Source,
  note: Note,
})
export type SpeechFile = z.infer<typeof SpeechFile>
