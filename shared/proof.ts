/**
 * What `npm run prove` writes and the proof page shows: how good the rulebook is, kind by kind.
 *
 * Shares are in [0, 1], minutes are a trained hand's, money is in major units of the shop's currency. `se` is the
 * standard error of a mean over simulated tools, in the unit of the mean.
 */
import { z } from 'zod'
import { Id } from './ids.js'

const Share = z.number().min(0).max(1)
const Estimate = z.strictObject({ mean: z.number(), se: z.number().min(0) })
const Three = z.tuple([Estimate, Estimate, Estimate])
const Digest = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in hexadecimal')

/** What all the figures rest on, besides the rulebook and the code of that day. */
export const ProofSettings = z.strictObject({
  tools: z.int().min(1).describe('tools simulated for isolation, a kind'),
  courses: z.int().min(1).describe('tools taken from complaint to end, a kind'),
  offTools: z.int().min(1).describe('tools for isolation, a row of the robustness table'),
  offCourses: z.int().min(0).describe('tools taken to the end, a row of the robustness table'),
  spread: z.number().describe('standard deviation of the numbers that are off, in log-odds'),
  seeds: z.string().describe('how the tools are numbered, so that the same come again'),
})
export type ProofSettings = z.infer<typeof ProofSettings>

/** From complaint to end, over many tools. */
const Work = z.strictObject({
  steps: Estimate.describe('questions and checks, after the complaint and the danger signs'),
  fixes: Estimate.describe('fixes tried'),
  minutes: Estimate,
  cost: Estimate.describe('hands, parts, and what the end costs'),
  mended: Estimate.describe('share that runs again'),
  sentIn: Estimate.describe('share sent to a service or retired'),
  setAside: Estimate.describe('share that a danger ends'),
})
export type Work = z.infer<typeof Work>

/** Tools that are not as the book has them, or answers that are wrong. */
const RobustRow = z.strictObject({
  off: z.boolean().describe('is every prior, leak and strength of the tools off by its own factor?'),
  wrong: Share.describe('share of wrong answers'),
  again: z.boolean().default(false).describe('are answers that fit the others least looked at once more?'),
  isolation: Three,
  lost: Estimate.nullable()
    .default(null)
    .describe('share of tools whose repairs are no longer first, less those whose repairs only now are'),
  work: Work.nullable(),
  /** against the same tools with nothing off and nothing wrong */
  dearer: Estimate.nullable().describe('how much more a tool costs'),
})
export type RobustRow = z.infer<typeof RobustRow>

export const KindFigures = z.strictObject({
  rulebook: Digest.describe('of all in the kind’s rules that a figure rests on; wording is left out'),
  settings: ProofSettings,
  isolation: Three.describe('every fault’s repair among the first 1, 2, 3 by posterior, everything answered'),
  atBest: Three.describe('the same if all causes were known: two repairs cannot both be the first'),
  oneRepair: Three.describe('isolation of the tools that need one repair'),
  inTurn: Three.describe('isolation where the repairs for the other faults of a tool are not counted'),
  causeFirst: Estimate.describe('share of faults whose cause is itself the likeliest'),
  detected: Share.describe('exact: share of faults that more often than not make some finding true'),
  grouped: z
    .tuple([Share, Share, Share])
    .describe('exact: of those, share whose usual findings point to at most 1, 2, 3 repairs'),
  alike: z
    .array(z.strictObject({ causes: z.tuple([Id, Id]), apart: Share, sameRepair: z.boolean() }))
    .describe('exact: causes that no question tells apart, with the greatest difference of any finding'),
  idle: z.array(Id).describe('questions that never changed a decision'),
  unconfirmed: z
    .array(Id)
    .describe('causes that in fewer than half of their tools become 90 % likely, everything answered'),
  unreached: z.array(Id).describe('exact: stops that no question reaches'),
  work: Work,
  causes: z.record(
    Id,
    z.strictObject({
      share: Share.describe('of troubled tools, in how many it is the main cause'),
      confirmed: Share.describe(
        'of tools with it alone, in how many it becomes 90 % likely, everything answered',
      ),
      tools: z.int().describe('taken to the end with it as the main cause'),
      work: Work,
    }),
  ),
  confusions: z
    .array(
      z.strictObject({
        cause: Id.describe('what it was'),
        takenFor: Id.describe('what it was mistaken for'),
        cost: z.number().describe('money lost by it over 100 troubled tools'),
      }),
    )
    .max(10),
  robust: z.array(RobustRow),
  sample: z
    .strictObject({
      within: z.array(z.int().min(1)).describe('tool by tool: isolated to so many repairs'),
      causeFirst: z
        .array(Share)
        .describe('tool by tool: of its faults, the share whose cause is the likeliest'),
      costs: z.array(z.number()).describe('tool by tool: from complaint to end'),
    })
    .describe('what `npm test` simulates again'),
})
export type KindFigures = z.infer<typeof KindFigures>

/** One true cause of a story that others told. */
const ToldCause = z.strictObject({
  story: Id,
  kind: Id,
  cause: Id,
  byPrior: z.int().min(1).describe('its place before anything was told'),
  afterComplaint: z.int().min(1),
  afterAll: z.int().min(1),
  half: z.enum(['tuned-on', 'held-back']).describe('were the numbers of the rulebook tuned on this story?'),
  thin: z.boolean().describe('is one answer, or none, all that was told?'),
  chance: Share.describe('what the scores give this cause after all that was told'),
  leader: z
    .strictObject({ chance: Share, right: z.boolean() })
    .describe('the likeliest cause after all that was told, and whether it is one of the story'),
  miss: z
    .strictObject({ verdict: z.string(), because: z.string() })
    .nullable()
    .describe('why it is not among the first three'),
})
export type ToldCause = z.infer<typeof ToldCause>

export const ToldFigures = z.strictObject({
  digest: Digest.describe('of the stories'),
  stories: z.int(),
  causes: z.array(ToldCause),
})
export type ToldFigures = z.infer<typeof ToldFigures>

export const ProofFigures = z.strictObject({
  kinds: z.record(Id, KindFigures),
  told: ToldFigures,
})
export type ProofFigures = z.infer<typeof ProofFigures>
export type Estimate = z.infer<typeof Estimate>

/** What isolation to 1, 2 and 3 repairs should reach. */
export const isolationMarks = [0.85, 0.95, 0.99] as const
