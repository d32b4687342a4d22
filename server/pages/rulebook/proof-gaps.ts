/** What the proof found missing in a kind's rules, by name. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { KindFigures } from '../../../shared/proof.js'
import type { ProofSection } from './proof-table.js'
import { proofSection } from './proof-table.js'
import { countOf100 } from '../layout/words.js'

/** Names by id; a thing that is no longer in the rulebook keeps its id. */
export interface Names {
  readonly cause: (id: string) => string
  readonly question: (id: string) => string
  readonly stop: (id: string) => string
}

export function namesIn(knowledge: Knowledge, kind: string): Names {
  const { causes, steps, fixes, stops } = bookOf(knowledge, kind)
  const questions = new Map(
    [...steps.flatMap((step) => step.questions), ...fixes.flatMap((fix) => fix.outcome ?? [])].map((q) => [
      q.id,
      q.text,
    ]),
  )
  const nameIn = (list: readonly { readonly id: string; readonly name: string }[]) => (id: string) =>
    list.find((one) => one.id === id)?.name ?? id
  return { cause: nameIn(causes), question: (id) => questions.get(id) ?? id, stop: nameIn(stops) }
}

export function gapSections(figures: KindFigures, names: Names): ProofSection[] {
  return [
    apartSection(figures, names),
    unconfirmedSection(figures, names),
    idleSection(figures, names),
    stopsSection(figures, names),
  ]
}

function apartSection({ alike }: KindFigures, { cause }: Names): ProofSection {
  return proofSection('Causes that no question tells apart', {
    texts: [
      alike.length === 0
        ? 'None: for any two causes there is a question whose answer differs in 30 of 100 tools or more.'
        : 'For these no question’s answer differs in 30 of 100 tools or more.',
    ],
    items: alike.map(({ causes: [a, b], apart, sameRepair }) => ({
      name: `${cause(a)} and ${cause(b)}`,
      href: null,
      note: `at most ${countOf100(apart)} of 100 tools differ; ${sameRepair ? 'they share a repair' : 'they need different repairs'}`,
    })),
  })
}

function unconfirmedSection({ unconfirmed, causes }: KindFigures, { cause }: Names): ProofSection {
  return proofSection('Causes that are hard to confirm', {
    texts: [
      unconfirmed.length === 0
        ? 'None: each cause, where it is the only one, becomes 90 in 100 likely or more in at least half of its tools.'
        : 'With everything answered and nothing else wrong, these become 90 in 100 likely in fewer than half of their tools. Some need a reading or a part that a bench without a specialist has not.',
    ],
    items: unconfirmed.map((id) => ({
      name: cause(id),
      href: `/rulebook/causes/${id}`,
      note: `in ${countOf100(causes[id]!.confirmed)} of 100 of its tools`,
    })),
  })
}

function idleSection({ idle, settings }: KindFigures, { question }: Names): ProofSection {
  return proofSection('Questions that never change a decision', {
    texts: [
      idle.length === 0
        ? 'None.'
        : `In ${settings.tools} tools none of these changed which repair led, neither as the first answer after the complaint nor as the last one missing, and none brings a danger or another question with it.`,
    ],
    items: idle.map((id) => ({ name: question(id), href: null, note: '' })),
  })
}

function stopsSection({ unreached }: KindFigures, { stop }: Names): ProofSection {
  return proofSection('Dangers that no question reaches', {
    texts: [
      unreached.length === 0
        ? 'None: for every stop there are answers that bring it about.'
        : 'No answer that can be given brings these about.',
    ],
    items: unreached.map((id) => ({ name: stop(id), href: '/rulebook/stops', note: '' })),
  })
}
