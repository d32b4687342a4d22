/** The repairs told in tests/bench-cases, as the proof takes them. */
import { createHash } from 'node:crypto'
import type { Knowledge } from '../../shared/knowledge.js'
import type { ToldFigures } from '../../shared/proof.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { toldCauses } from './told.js'
import type { Story } from '../bench-cases/story.js'
import { readStories } from '../bench-cases/story.js'

/** Stories of the kinds in the rulebook. */
export function storiesOf(knowledge: Knowledge): readonly Story[] {
  const kinds = new Set(knowledge.kinds.map(({ id }) => id))
  return readStories().filter(({ kind }) => kinds.has(kind))
}

/** Of what the figures rest on: not of how a story is told. */
export function storiesDigest(stories: readonly Story[]): string {
  const facts = stories.map(({ id, kind, complaint, observations, tried, causes }) => ({
    id,
    kind,
    complaint,
    observations,
    tried,
    causes: causes.map(({ id: cause, explains }) => ({ cause, explains })),
  }))
  return createHash('sha256').update(JSON.stringify(facts)).digest('hex')
}

export async function toldFigures(prepared: Prepared, stories: readonly Story[]): Promise<ToldFigures> {
  return {
    digest: storiesDigest(stories),
    stories: stories.length,
    causes: await toldCauses(prepared, stories),
  }
}
