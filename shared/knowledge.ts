/**
 * The shape of every file under `rules/`, written once. Types are inferred, JSON Schemas for editors
 * are generated (`npm run fix:rules`), and the loader checks every file against these at start.
 *
 * A strength, leak or chance in `rules/` is never 0 or 1: a certain clue could not be undone
 * (Cromwell's rule, Lindley 1991). Minutes are a trained hand's minutes. Money is in major units of
 * the shop's currency.
 */
import { z } from 'zod'
import { CauseFile, FindingFile, PolicyFile, RelevanceFile, StopFile } from './evidence-files.js'
import type { Conditions } from './conditions.js'
import { DrawingId, Id } from './ids.js'
import { ConfusionFile, HearsayFile } from './lesson-files.js'
import { LimitFile } from './limit-file.js'
import { ChainFile, LevelFile, SlipFile } from './practice-files.js'
import { Note, Schema, Sentence, Short, Source } from './rule-fields.js'
import { PaperFile } from './paper-file.js'
import { SignFile } from './sign-file.js'
import { SpeechFile } from './speech-file.js'
import { TellingFile } from './telling-file.js'
import { VerdictFile } from './verdict-file.js'
import { CareFile, FixFile, SetupFile, StepFile } from './work-files.js'

export { Skill } from './rule-fields.js'
export { Question } from './work-files.js'

/** Where a number or statement comes from. */
const SourceEntry = z.strictObject({
  standing: z.enum(['published', 'common-practice', 'estimate', 'memory']),
  title: Short.describe('what to call it on a page, such as "workshop estimate"'),
  reference: z.string().max(400).optional().describe('authors, title, year, clause'),
  address: z.url().optional(),
  note: Note,
})
export const Sources = z.record(Id, SourceEntry)

/** One drive family: its parts and the share of its troubled tools that have several faults at once. */
const KindFile = z.strictObject({
  $schema: Schema,
  name: Short,
  plainName: Short.describe('what a barber would call it'),
  runsOn: z.enum(['cord', 'battery']).describe('battery: it can cut with no cord in the wall'),
  look: Short.describe('what tells it at a glance, on the picture that is tapped'),
  tell: z.array(Sentence).min(2).describe('how to know that one holds this kind'),
  works: Sentence.describe('how it works, in a breath'),
  drawing: DrawingId,
  parts: z.array(z.strictObject({ id: Id, name: Short })).min(3),
  severalFaults: z.strictObject({
    share: z.number().gt(0).lt(0.9).describe('share of troubled tools with two causes or more'),
    source: Source,
  }),
  sound: z
    .strictObject({
      drive: z
        .enum(['mains', 'motor', 'board'])
        .describe('what sets its strokes: the mains, a motor that turns, or a board that pulls an arm'),
      like: z
        .enum(['vibrator', 'magnet-arm', 'geared', 'direct', 'brushless'])
        .describe('how it is driven, as far as the ear goes: such a sound is made for the lesson by ear'),
      least: z.number().gt(0).describe('fewest strokes a minute, sick tools included'),
      most: z.number().gt(0).describe('most strokes a minute'),
      source: Source,
    })
    .optional()
    .describe('what the microphone may expect'),
  usual: z
    .number()
    .gt(0)
    .max(999)
    .optional()
    .describe(
      'of 1000 troubled tools of a shop, how many are of this kind; what the kinds leave is none of them',
    ),
  order: z.number().int().describe('place in the list of kinds'),
  source: Source,
  note: Note,
})

/** Old id to new id, for each folder; stored cases point at ids. */
export const Moved = z.record(Id, z.record(Id, Id))

/** Every folder under `rules/` with the shape of its files. */
export const folders = {
  kinds: KindFile,
  setups: SetupFile,
  causes: CauseFile,
  findings: FindingFile,
  steps: StepFile,
  fixes: FixFile,
  stops: StopFile,
  relevance: RelevanceFile,
  policy: PolicyFile,
  care: CareFile,
  signs: SignFile,
  verdicts: VerdictFile,
  papers: PaperFile,
  limits: LimitFile,
  levels: LevelFile,
  slips: SlipFile,
  chains: ChainFile,
  confusions: ConfusionFile,
  hearsay: HearsayFile,
  speech: SpeechFile,
  telling: TellingFile,
} as const
export type Folder = keyof typeof folders
/** The keys of `folders`: an object's keys are typed as any text, and these are known to be no others. */
export const folderNames = Object.keys(folders) as readonly Folder[]

type Entry<F extends Folder> = z.infer<(typeof folders)[F]> & { readonly id: string }
export type Kind = Entry<'kinds'>
export type Setup = Entry<'setups'>
export type Cause = Entry<'causes'>
/** `when` is there always: where its file leaves it out, the loader puts in the yes that it stands for. */
export type Finding = Entry<'findings'> & { readonly when: Conditions }
export type Step = Entry<'steps'>
export type Fix = Entry<'fixes'>
export type Stop = Entry<'stops'>
export type Relevance = Entry<'relevance'>
export type Policy = Entry<'policy'>
export type Care = Entry<'care'>
export type Sign = Entry<'signs'>
export type Verdict = Entry<'verdicts'>
export type Paper = Entry<'papers'>
export type LimitSet = Entry<'limits'>
export type Level = Entry<'levels'>
export type Slip = Entry<'slips'>
export type Chain = Entry<'chains'>
export type Confusion = Entry<'confusions'>
export type Hearsay = Entry<'hearsay'>
export type Speech = Entry<'speech'>
type Telling = Entry<'telling'>
export type Sources = z.infer<typeof Sources>

/** The rulebook as loaded: each list in rulebook order (`order` where a file has it, then id). Frozen. */
export interface Knowledge {
  readonly kinds: readonly Kind[]
  readonly setups: readonly Setup[]
  readonly causes: readonly Cause[]
  readonly findings: readonly Finding[]
  readonly steps: readonly Step[]
  readonly fixes: readonly Fix[]
  readonly stops: readonly Stop[]
  readonly relevance: readonly Relevance[]
  readonly policy: readonly Policy[]
  readonly care: readonly Care[]
  readonly signs: readonly Sign[]
  readonly verdicts: readonly Verdict[]
  readonly papers: readonly Paper[]
  readonly limits: readonly LimitSet[]
  readonly levels: readonly Level[]
  readonly slips: readonly Slip[]
  readonly chains: readonly Chain[]
  readonly confusions: readonly Confusion[]
  readonly hearsay: readonly Hearsay[]
  readonly speech: readonly Speech[]
  readonly telling: readonly Telling[]
  readonly sources: Sources
  readonly moved: z.infer<typeof Moved>
}
