/**
 * The shape of the repairs told in this folder, and their reading. Whoever measures the rulebook on them
 * (the tests here, the proof) reads them through this file.
 *
 * A miss is a true cause that is not among the first three after all was told; each miss says why it is one.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { z } from 'zod'

const Answers = z.record(z.string(), z.union([z.enum(['yes', 'no']), z.number()]))
const Sentence = z.string().min(20)

/** Why a true cause is not among the first three. */
const Miss = z.strictObject({
  verdict: z
    .enum(['rulebook wrong', 'case thin', 'outside the scope'])
    .describe('thin: what was told fits half the book; outside: no cause or clue of the rulebook is meant'),
  because: Sentence,
})
type Miss = z.infer<typeof Miss>

export const Story = z.strictObject({
  id: z.string(),
  story: z.string(),
  source: z.strictObject({
    record: z.string().optional(),
    data: z.string(),
    address: z.url().optional(),
  }),
  kind: z.string().describe('a kind of the rulebook'),
  kindBecause: Sentence.optional().describe('where the record leaves the kind open: why this one'),
  complaint: Answers.describe('what a person would tell unasked'),
  observations: Answers.describe('the rest of what is given: what only the bench saw or asked for'),
  tried: z.array(z.string()).default([]).describe('fixes done by then that did not cure it'),
  causes: z
    .array(
      z.strictObject({
        id: z.string(),
        within: z.union([z.literal(1), z.literal(3), z.literal(10), z.literal('missed')]),
        why: Sentence.optional().describe('where the bound is wider than the rule gives'),
        explains: Miss.optional().describe('for a miss'),
      }),
    )
    .min(1),
})
export type Story = z.infer<typeof Story>

/** All stories, in the order of their files. @throws ZodError where one has not the shape above */
export function readStories(): readonly Story[] {
  const folder = new URL('./', import.meta.url)
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .flatMap((name) => z.array(Story).parse(JSON.parse(readFileSync(new URL(name, folder), 'utf8'))))
}
