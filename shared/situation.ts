/** What is known of one tool, and the shop it stands in: the input of the diagnosis. */
import { z } from 'zod'
import { Id } from './ids.js'
import { Skill } from './knowledge.js'
import type { ToldBy } from './telling-file.js'

/** An answer as given: yes, no, can't tell, or a reading in the question's unit. */
export const Answer = z.union([z.enum(['yes', 'no', 'cant-tell']), z.number()])
export type Answer = z.infer<typeof Answer>

/**
 * What a screen takes of the person who works by the pages, beside the work of the hand. 200 words a minute and 4 s a
 * line are estimates of quiet reading by a second-language reader with a client waiting. The fixed minutes stand for
 * getting back to the phone with oil on the fingers and finding one's place; they were chosen by `npm run study`
 * (DEVELOPERS.md tells what else was tried).
 */
export const ScreenTime = z.strictObject({
  minutes: z.number().min(0).max(30).default(0.5).describe('what any screen takes, however short'),
  wordsAMinute: z.number().min(20).max(2000).default(200).describe('how fast it is read'),
  secondsALine: z.number().min(0).max(120).default(4).describe('to answer one line'),
})
export type ScreenTime = z.infer<typeof ScreenTime>

/** The shop's own figures. Money in major units of its currency, `rate` per minute. */
export const ShopSettings = z.strictObject({
  rate: z.number().min(0).max(100).default(0.8).describe('what a minute at the bench costs'),
  sendIn: z.number().min(0).max(10_000).default(60).describe('fee and carriage of a service'),
  sendInPaid: z
    .number()
    .min(0)
    .max(10_000)
    .nullable()
    .default(null)
    .describe('the same for what a warranty leaves out; as much as sendIn where not told'),
  sendInVain: z
    .number()
    .min(0)
    .max(10_000)
    .nullable()
    .default(null)
    .describe('inspection and carriage when a service cannot mend it; as much as sendIn where not told'),
  serviceMends: z
    .number()
    .gt(0)
    .max(1)
    .default(1)
    .describe('share that comes back mended of what a service can mend at all'),
  turnaroundDays: z.number().min(0).max(365).default(7),
  dayWithout: z
    .number()
    .min(0)
    .max(10_000)
    .default(0)
    .describe('what a day without the tool costs; 0 with a spare'),
  replace: z
    .number()
    .min(0)
    .max(100_000)
    .default(160)
    .describe('what replacing costs, set against mending: at most the price of a new tool of the same class'),
  replaceRenewed: z
    .number()
    .min(0)
    .max(100_000)
    .nullable()
    .default(null)
    .describe('the same where fixing would make the tool as good as new; as much as replace where not told'),
  teaches: z
    .number()
    .min(0)
    .max(10_000)
    .default(0)
    .describe('what fixing it here is worth to who learns by it'),
  partDays: z.number().min(0).max(365).default(0).describe('days until a part is here; 0 from the shelf'),
  partsToBeHad: z.boolean().default(true).describe('can its parts still be bought?'),
  skill: Skill.default('S2'),
  canSafetyTest: z.boolean().default(false).describe('may and can somebody here test electrical safety?'),
  inWarranty: z.boolean().default(false).describe('would opening the body cost a warranty?'),
  screens: ScreenTime.nullable()
    .default(ScreenTime.parse({}))
    .describe(
      'what a screen takes of the person; null where nobody reads one and every look tells, as in an exercise',
    ),
})
export type ShopSettings = z.infer<typeof ShopSettings>

/**
 * All that was said and done about one tool. `answeredAfter` tells how many of `fixesTried` were done
 * when a question was answered (absent = 0): earlier answers speak of causes that a fix may since have cured.
 */
export const Situation = z.strictObject({
  kind: Id,
  answers: z.record(Id, Answer).default({}),
  fixesTried: z.array(Id).max(200).default([]),
  answeredAfter: z.record(Id, z.number().int().min(0).max(200)).default({}),
  cannotDo: z.array(Id).max(200).default([]).describe('steps and fixes that cannot be done here'),
  stopsLifted: z.array(Id).max(40).default([]).describe('stops whose lifting act was done'),
  sure: z
    .array(Id)
    .max(200)
    .optional()
    .describe('questions whose answers need no second look: told unasked, or looked at twice'),
  standing: z.array(Id).max(20).default([]).describe('set-ups that stand now'),
  looksWanted: z
    .number()
    .int()
    .min(0)
    .max(20)
    .default(0)
    .describe('looks that the person wants still, although an ending was offered'),
  lookedEnough: z
    .boolean()
    .optional()
    .describe('the person wants no further look: the fix or the ending that is best now is the next step'),
})
export type Situation = z.infer<typeof Situation> & KnownBeforehand

/** What a shop knows of a tool before anybody answers. It comes from the shop's own record, never from outside. */
export interface KnownBeforehand {
  /** by cause: what its prior odds are multiplied by, above 0 */
  readonly odds?: Readonly<Record<string, number>>
  /** what the shop's own confirmed cases of this kind came to */
  readonly learned?: ShopCounts
}

/** Counts over confirmed cases of one kind. The rulebook's figures start from their own stated weights. */
export interface ShopCounts {
  /** the same for the same counts: whoever remembers by situation goes by it */
  readonly id: string
  readonly cases: number
  /** by cause: cases in which it was confirmed */
  readonly causes: Readonly<Record<string, number>>
  /** by finding, by confirmed cause: of how many it was known, and true */
  readonly findings: Readonly<Record<string, Readonly<Record<string, Tally>>>>
  /** by fix, by confirmed cause: how often it was tried, and cured */
  readonly fixes: Readonly<Record<string, Readonly<Record<string, Tally>>>>
  /** by fix: minutes that somebody told, all together, and of how many times */
  readonly minutes: Readonly<Record<string, { readonly sum: number; readonly of: number }>>
  /** by way of telling: of how many screens that asked something told so, which share of it was told */
  readonly telling: Readonly<Partial<Record<ToldBy, Tally>>>
}

export interface Tally {
  readonly hits: number
  readonly of: number
}
