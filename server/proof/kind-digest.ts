/** What of a kind's rules a figure rests on, as a digest: when it changes, the figures are stale. */
import { createHash } from 'node:crypto'
import { bookOf } from '../../shared/book-of-kind.js'
import { strengthIn } from '../../shared/finding-rule.js'
import type { Finding, Knowledge } from '../../shared/knowledge.js'
import { onceForEach } from '../../shared/once-for.js'

/**
 * Fields that hold words for people, or say where something comes from. Everything else counts, so that a field added
 * later counts until somebody says here that it is wording: mending a word calls for no new proof.
 */
const wording: ReadonlySet<string> = new Set([
  '$schema',
  'afterwards',
  'back',
  'because',
  'cautions',
  'checkQuestion',
  'cured',
  'description',
  'drawing',
  'hazard',
  'help',
  'how',
  'ifIgnored',
  'lift',
  'liftedBy',
  'look',
  'name',
  'note',
  'now',
  'opens',
  'plainName',
  'says',
  'sendIn',
  'source',
  'gathered',
  'statement',
  'tell',
  'tells',
  'text',
  'threshold',
  'title',
  'tools',
  'unasked',
  'undone',
  'without',
  'why',
  'words',
  'works',
  'worry',
])

/** Wording in one folder and data in another. */
const wordingIn: Readonly<Record<string, ReadonlySet<string>>> = {
  fixes: new Set(['steps', 'putsBack']),
  kinds: new Set(['parts']),
  causes: new Set(['part']),
}

const counted = [
  'kinds',
  'setups',
  'causes',
  'findings',
  'steps',
  'fixes',
  'stops',
  'relevance',
  'policy',
] as const satisfies readonly (keyof Knowledge)[]

/** @returns a SHA-256 in hexadecimal; the same for the same numbers, ids and conditions, whatever their order in a file */
export const kindDigest = (knowledge: Knowledge, kind: string): string =>
  digests(knowledge, kind, () => digestOf(knowledge, kind))

const digests = onceForEach<Knowledge, string>()

function digestOf(knowledge: Knowledge, kind: string): string {
  const whole = bookOf(knowledge, kind)
  const book = { ...whole, findings: whole.findings.map((finding) => pointingIn(finding, whole, kind)) }
  const hash = createHash('sha256')
  for (const folder of counted) {
    const entries = book[folder].map((entry) => bared(entry, kind, wordingIn[folder]))
    hash.update(`${folder}\n${JSON.stringify(entries)}\n`)
  }
  return hash.digest('hex')
}

/** Of a finding only the strengths that the kind's causes have there. */
function pointingIn(finding: Finding, { causes }: Knowledge, kind: string): Finding {
  const strengths = causes.flatMap(({ id }) => {
    const strength = strengthIn(finding, id, kind)
    return strength === undefined ? [] : [[id, strength] as const]
  })
  return { ...finding, strengths: Object.fromEntries(strengths) }
}

/** Without wording, keys in order; of what goes by kind only this kind's, because the others are none of its business. */
function bared(value: unknown, kind: string, more?: ReadonlySet<string>): unknown {
  if (Array.isArray(value)) return value.map((one) => bared(one, kind))
  if (typeof value !== 'object' || value === null) return value
  const fields = Object.entries(value)
    .filter(([key]) => !wording.has(key) && !more?.has(key) && key !== 'forKind' && key !== 'kinds')
    .sort(([a], [b]) => (a < b ? -1 : 1))
  return Object.fromEntries(
    fields.map(([key, inner]) => [
      key,
      key === 'shares' ? (inner as Record<string, number>)[kind] : bared(inner, kind),
    ]),
  )
}
