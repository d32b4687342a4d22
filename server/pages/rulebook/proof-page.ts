/** How good the rulebook is, kind by kind, and what it makes of repairs that others told. */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { KindFigures, ProofFigures } from '../../../shared/proof.js'
import { isolationMarks } from '../../../shared/proof.js'
import { plainFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { metWords, troubleWords } from './proof-kind-page.js'
import type { ProofPage, ProofSection } from './proof-table.js'
import { cell, countCell, markCell, meanCell, proofSection, wholeCell } from './proof-table.js'
import { toldSections } from './proof-told.js'
import { countOf100 } from '../layout/words.js'

const heading = 'How good the rulebook is'
const book = { href: '/rulebook', name: 'Rulebook' }

/** Where nothing was measured yet. */
export function unprovedPage(): ProofPage {
  return {
    frame: plainFrame(heading, 'rulebook'),
    eyebrow: book,
    heading,
    lead: 'Nothing was measured yet.',
    stale: ['There are no figures: run npm run prove where the program lies.'],
    sections: [],
  }
}

/** @param stale kinds whose rules have changed since they were measured */
export function proofPage(knowledge: Knowledge, figures: ProofFigures, stale: readonly string[]): ProofPage {
  const { kinds: known } = lookupOf(knowledge)
  const nameOf = (kind: string) => known.get(kind)?.name ?? kind
  const kinds = Object.entries(figures.kinds).map(([id, it]) => ({ id, name: nameOf(id), it }))
  return {
    frame: plainFrame(heading, 'rulebook'),
    eyebrow: book,
    heading,
    lead: 'Measured, not praised. Tools are simulated from the rulebook’s own numbers, so this is the rulebook judged by itself: a ceiling, not a promise. The test from outside stands at the end: repairs that others told.',
    stale: stale.map((kind) => staleWords(nameOf(kind), figures.kinds[kind] !== undefined)),
    sections: [
      marksSection(kinds),
      workSection(kinds),
      endSection(kinds),
      robustSection(kinds),
      gapsSection(kinds),
      ...toldSections(knowledge, figures.told),
    ],
  }
}

/** @param known were its figures ever taken? */
export const staleWords = (name: string, known: boolean): string =>
  !known
    ? `${name}: not measured yet. Run npm run prove where the program lies.`
    : `${name}: its rules have changed since this was measured, so its figures are old. Run npm run prove where the program lies.`

interface Measured {
  readonly id: string
  readonly name: string
  readonly it: KindFigures
}

const rowOf = ({ id, name }: Measured, cells: ProofSectionRow['cells']): ProofSectionRow => ({
  name,
  href: `/rulebook/proof/${id}`,
  cells,
})
type ProofSectionRow = NonNullable<ProofSection['table']>['rows'][number]

function marksSection(kinds: readonly Measured[]): ProofSection {
  return proofSection('Does the right repair stand out?', {
    texts: [
      'Of 100 troubled tools, with all answered that a competent bench hand can settle: in how many is every repair that the tool needs the likeliest one, among the likeliest two, among the likeliest three? What stands after ± is the luck of the draw: the true count is nearly always within twice that.',
    ],
    table: {
      caption: 'Of 100 tools',
      head: [
        'Kind',
        ...['First', 'First 2', 'First 3'].map((at, k) => `${at} (mark ${countOf100(isolationMarks[k]!)})`),
      ],
      rows: kinds.map((kind) =>
        rowOf(
          kind,
          kind.it.isolation.map((share, k) => markCell(share, metWords(share.mean, k))),
        ),
      ),
    },
  })
}

function workSection(kinds: readonly Measured[]): ProofSection {
  return proofSection('What it takes', {
    texts: [
      'From complaint to end by the program’s own plan, the danger signs not counted. Money is minutes, parts, and what a service or a new tool costs.',
    ],
    table: {
      caption: 'A tool on average',
      head: ['Kind', 'Steps', 'Minutes', 'Money'],
      rows: kinds.map((kind) => {
        const { steps, minutes, cost } = kind.it.work
        return rowOf(kind, [meanCell(steps), wholeCell(minutes), wholeCell(cost)])
      }),
    },
  })
}

function endSection(kinds: readonly Measured[]): ProofSection {
  return proofSection('How it ends', {
    table: {
      caption: 'Of 100 tools',
      head: ['Kind', 'Runs again', 'Sent in, retired', 'Set aside'],
      rows: kinds.map((kind) => {
        const { mended, sentIn, setAside } = kind.it.work
        return rowOf(kind, [countCell(mended), countCell(sentIn), countCell(setAside)])
      }),
    },
  })
}

function robustSection(kinds: readonly Measured[]): ProofSection {
  const rows = kinds[0]?.it.robust ?? []
  return proofSection('When the rulebook or the answers are wrong', {
    texts: [
      'The right repair first, once more: with tools whose every number is off from the rulebook’s by its own factor, and with answers the wrong way round. Each kind’s page tells by how much.',
    ],
    table: {
      caption: 'Of 100 tools, every repair first',
      head: ['Kind', ...rows.map(troubleWords)],
      rows: kinds.map((kind) =>
        rowOf(
          kind,
          rows.map((row) => {
            const own = kind.it.robust.find((it) => troubleWords(it) === troubleWords(row))
            return own ? countCell(own.isolation[0]) : cell('–')
          }),
        ),
      ),
    },
  })
}

function gapsSection(kinds: readonly Measured[]): ProofSection {
  return proofSection('What is missing', {
    texts: ['How many there are of each; the page of the kind names them.'],
    table: {
      caption: 'Counts',
      head: [
        'Kind',
        'Causes not told apart, pairs',
        'Causes hard to confirm',
        'Idle questions',
        'Stops not reached',
      ],
      rows: kinds.map((kind) => {
        const { alike, unconfirmed, idle, unreached } = kind.it
        return rowOf(
          kind,
          [alike, unconfirmed, idle, unreached].map((list) => cell(String(list.length))),
        )
      }),
    },
  })
}
