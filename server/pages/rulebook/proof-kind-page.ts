/** How good the rulebook is for one kind: all its figures. */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { KindFigures, RobustRow, Work } from '../../../shared/proof.js'
import { isolationMarks } from '../../../shared/proof.js'
import { plainFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { Names } from './proof-gaps.js'
import { gapSections, namesIn } from './proof-gaps.js'
import type { ProofPage, ProofSection } from './proof-table.js'
import {
  cell,
  countCell,
  markCell,
  meanCell,
  moneyCell,
  proofSection,
  wholeCell,
  wordCell,
} from './proof-table.js'
import { countOf100 } from '../layout/words.js'

/** @param stale what has changed since, in sentences */
export function proofKindPage(
  knowledge: Knowledge,
  kindId: string,
  figures: KindFigures,
  stale: readonly string[],
): ProofPage {
  const name = lookupOf(knowledge).kinds.get(kindId)?.name ?? kindId
  const named = namesIn(knowledge, kindId)
  return {
    frame: plainFrame(`How good the rulebook is: ${name}`, 'rulebook'),
    eyebrow: { href: '/rulebook/proof', name: 'How good the rulebook is' },
    heading: name,
    lead: `${figures.settings.tools} simulated tools with everything answered, and ${toolsTaken(figures)} taken from complaint to end. Counts are of 100 tools; what stands after ± is how far off a figure may be by the luck of the draw, nearly always less than twice that.`,
    stale,
    sections: [
      isolationSection(figures),
      workSection(figures.work),
      ...gapSections(figures, named),
      confusionSection(figures, named),
      robustSection(figures.robust, figures.settings.spread),
      causeSection(figures, named),
    ],
  }
}

const toolsTaken = ({ causes }: KindFigures): number =>
  Object.values(causes).reduce((sum, { tools }) => sum + tools, 0)

function isolationSection(figures: KindFigures): ProofSection {
  const row = (name: string, three: KindFigures['isolation'], marked = false) => ({
    name,
    href: null,
    cells: three.map((share, k) => (marked ? markCell(share, metWords(share.mean, k)) : countCell(share))),
  })
  return proofSection('Does the right repair stand out?', {
    texts: [
      'Everything is answered that a competent bench hand can settle. Then the repairs are put in order by how likely it is that the tool needs them. In how many of 100 tools is every repair that it does need the first, among the first two, among the first three?',
      'A tool with two faults often needs two repairs, and both cannot be the first: knowing everything would not make more of it than the second line.',
    ],
    table: {
      caption: 'Of 100 tools',
      head: [
        'Counted',
        ...['First', 'First 2', 'First 3'].map((at, k) => `${at} (mark ${countOf100(isolationMarks[k]!)})`),
      ],
      rows: [
        row('All tools', figures.isolation, true),
        row('If all faults were known', figures.atBest),
        row('Tools that need one repair', figures.oneRepair),
        row('Fault by fault, the tool’s other repairs not counted', figures.inTurn),
      ],
    },
    items: [
      {
        name: `Of 100 faults, in ${countOf100(figures.causeFirst.mean)} the cause itself leads.`,
        href: null,
        note: 'Causes that share a repair need no telling apart.',
      },
      {
        name: `By what usually shows: ${countOf100(figures.detected)} of 100 faults make some sign true more often than not; of 100 of those, ${countOf100(figures.grouped[0])} have usual signs that belong to one repair only.`,
        href: null,
        note: 'Worked out exactly, without simulation; as IEEE 1522 counts, and blind to how often a sign is missed.',
      },
    ],
  })
}

/** Whether a mark is met. */
export function metWords(share: number, mark: number): string {
  return share >= isolationMarks[mark]! ? 'met' : 'not met'
}

function workSection(work: Work): ProofSection {
  return proofSection('From complaint to end', {
    texts: [
      'Two things are told at first, the danger signs are answered, then the program’s own plan is followed. Money is the bench’s minutes, parts, and what a service or a new tool costs, by the figures that a shop starts with, for a competent hand with a safety test at hand.',
    ],
    table: {
      caption: 'A tool on average',
      head: ['What', 'A tool'],
      rows: [
        { name: 'Questions and checks', href: null, cells: [meanCell(work.steps)] },
        { name: 'Fixes tried', href: null, cells: [meanCell(work.fixes)] },
        { name: 'Minutes of a trained hand', href: null, cells: [wholeCell(work.minutes)] },
        { name: 'Money', href: null, cells: [wholeCell(work.cost)] },
        { name: 'Runs again, of 100', href: null, cells: [countCell(work.mended)] },
        { name: 'Sent in or retired, of 100', href: null, cells: [countCell(work.sentIn)] },
        { name: 'Set aside for a danger, of 100', href: null, cells: [countCell(work.setAside)] },
      ],
    },
  })
}

function confusionSection({ confusions }: KindFigures, { cause }: Names): ProofSection {
  return proofSection('The costliest mistakes', {
    texts: [
      'What goes, over 100 troubled tools, into a repair or a service that was meant for one cause while it was another. Many are worth it: a cheap repair is tried before a dear look.',
    ],
    table: {
      caption: 'Money over 100 tools',
      head: ['What it was', 'Taken for', 'Money'],
      rows: confusions.map(({ cause: was, takenFor, cost }) => ({
        name: cause(was),
        href: `/rulebook/causes/${was}`,
        cells: [wordCell(cause(takenFor)), moneyCell(cost)],
      })),
    },
  })
}

function robustSection(rows: readonly RobustRow[], spread: number): ProofSection {
  return proofSection('When the rulebook or the answers are wrong', {
    texts: [
      `The numbers are estimates. So the tools are drawn once more with every share, strength and chance sign off by its own factor (log-odds moved by a normal number of standard deviation ${spread}: one in three is off by a factor of two or more), while the maker’s manual stays as it is. And once more with 5 and with 10 of 100 answers the wrong way round; and with 5, where what fits the other answers least is looked at once more, as the flow asks before a fix. The tools are the same in each line.`,
    ],
    table: {
      caption:
        'Of 100 tools, every repair among the first 1, 2, 3; and a tool on average, money also against the same tools with nothing off',
      head: [
        'Setting',
        'First',
        'First 2',
        'First 3',
        'First, lost',
        'Steps',
        'Minutes',
        'Money',
        'Money more',
      ],
      rows: rows.map((row) => ({
        name: troubleWords(row),
        href: null,
        cells: [
          ...row.isolation.map((share) => countCell(share)),
          row.lost && (row.off || row.wrong > 0) ? countCell(row.lost) : cell('–'),
          row.work ? meanCell(row.work.steps) : cell('–'),
          row.work ? wholeCell(row.work.minutes) : cell('–'),
          row.work ? wholeCell(row.work.cost) : cell('–'),
          row.dearer && (row.off || row.wrong > 0) ? wholeCell(row.dearer) : cell('–'),
        ],
      })),
    },
  })
}

export function troubleWords({ off, wrong, again }: Pick<RobustRow, 'off' | 'wrong' | 'again'>): string {
  if (off) return 'Tools off'
  const answers = `${countOf100(wrong)} of 100 answers wrong`
  if (again) return `${answers}, what fits least looked at again`
  return wrong > 0 ? answers : 'Nothing off'
}

function causeSection({ causes }: KindFigures, { cause }: Names): ProofSection {
  const rows = Object.entries(causes).sort(([, a], [, b]) => b.share - a.share)
  return proofSection('Cause by cause', {
    texts: [
      'With this as the main cause: steps, minutes and money from complaint to end. Few tools stand behind a rare cause, so take its figures as a hint.',
    ],
    folded: `${rows.length} causes, the commonest first`,
    table: {
      caption: 'A tool with this main cause, on average',
      head: ['Cause', 'Tools', 'Steps', 'Minutes', 'Money'],
      rows: rows.map(([id, { tools, work }]) => ({
        name: cause(id),
        href: `/rulebook/causes/${id}`,
        cells: [cell(String(tools)), meanCell(work.steps), wholeCell(work.minutes), wholeCell(work.cost)],
      })),
    },
  })
}
