/** What the rulebook makes of repairs that others told. */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { ToldCause, ToldFigures } from '../../../shared/proof.js'
import { logLoss, shareOf, shareWithin, sureAgainstRight } from '../../proof/told-marks.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { ProofSection } from './proof-table.js'
import { cell, countCell, proofSection } from './proof-table.js'

export function toldSections(knowledge: Knowledge, { stories, causes }: ToldFigures): ProofSection[] {
  if (causes.length === 0) return []
  return [
    placesSection(stories, causes),
    groupsSection(knowledge, causes),
    sureSection(causes),
    missedSection(knowledge, causes),
  ]
}

function placesSection(stories: number, causes: readonly ToldCause[]): ProofSection {
  const row = (name: string, place: (told: ToldCause) => number) => ({
    name,
    href: null,
    cells: [1, 3].map((most) => countCell(shareOf(causes.map((told) => place(told) <= most)))),
  })
  return proofSection('Repairs that others told', {
    texts: [
      `${stories} repairs of benches and owners who do not know this program, put into its questions, with ${causes.length} true causes. Most are one sentence. What only the bench saw is kept out of the complaint.`,
    ],
    table: {
      caption: 'Of 100 true causes',
      head: ['Known', 'First', 'First three'],
      rows: [
        row('Nothing: how common it is', (told) => told.byPrior),
        row('The complaint', (told) => told.afterComplaint),
        row('All that was told', (told) => told.afterAll),
      ],
    },
  })
}

function groupsSection(knowledge: Knowledge, causes: readonly ToldCause[]): ProofSection {
  const { kinds } = lookupOf(knowledge)
  const row = (name: string, some: readonly ToldCause[]) => {
    const loss = logLoss(some)
    return {
      name,
      href: null,
      cells: [
        cell(String(some.length)),
        countCell(shareWithin(some, 1)),
        countCell(shareWithin(some, 3)),
        cell(`${loss.mean.toFixed(2)} ±${loss.se.toFixed(2)}`),
      ],
    }
  }
  const told = [...new Set(causes.map(({ kind }) => kind))]
  return proofSection('Told repairs, in halves and by kind', {
    texts: [
      'Numbers of the rulebook were tuned on one half only; which half a repair falls in was left to chance. Log loss is the mean of minus the logarithm of the chance that the scores gave to what it was: 0 is knowing it, 0.7 is one chance in two.',
    ],
    table: {
      caption: 'Of 100 true causes, all told',
      head: ['Repairs', 'Causes', 'First', 'First three', 'Log loss'],
      rows: [
        row(
          'The half that was tuned on',
          causes.filter(({ half }) => half === 'tuned-on'),
        ),
        row(
          'The half held back',
          causes.filter(({ half }) => half === 'held-back'),
        ),
        row(
          'With two answers or more',
          causes.filter(({ thin }) => !thin),
        ),
        ...told.map((kind) =>
          row(
            kinds.get(kind)?.name ?? kind,
            causes.filter((it) => it.kind === kind),
          ),
        ),
      ],
    },
  })
}

function sureSection(causes: readonly ToldCause[]): ProofSection {
  const of100 = (share: number) => Math.round(100 * share)
  return proofSection('How sure, and how right', {
    texts: [
      'After all was told, the likeliest cause of each repair: what the scores say it is in 100, and in how many it was.',
    ],
    table: {
      caption: 'Likeliest cause',
      head: ['In 100, by the scores', 'Repairs', 'Said on average', 'Right'],
      rows: sureAgainstRight(causes).map(({ from, to, stories, said, right }) => ({
        name: `${of100(from)} to ${of100(to)}`,
        href: null,
        cells: [
          cell(String(stories)),
          cell(stories === 0 ? '–' : String(of100(said))),
          stories === 0 ? cell('–') : countCell(right),
        ],
      })),
    },
  })
}

function missedSection(knowledge: Knowledge, causes: readonly ToldCause[]): ProofSection {
  const { causes: known, kinds } = lookupOf(knowledge)
  const missed = causes.filter((told) => told.miss)
  return proofSection('Those it missed', {
    texts: [
      missed.length === 0
        ? 'None is missing from the first three.'
        : 'True causes that are not among the first three after all was told, and why.',
    ],
    items: missed.map(({ cause, kind, afterAll, miss }) => ({
      name: `${known.get(cause)?.name ?? cause}, place ${afterAll}`,
      href: `/rulebook/causes/${cause}`,
      note: `${kinds.get(kind)?.name ?? kind}. ${sentence(miss!.verdict)} ${miss!.because}`,
    })),
  })
}

const sentence = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`
