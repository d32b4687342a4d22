/** The lists of the rulebook: what there is, and where it stands. */
import type { Knowledge } from '../../../shared/knowledge.js'
import { plainFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { EntryPage, ListPage } from './rulebook-page.js'
import { item, section } from './rulebook-page.js'
import { sourceView } from '../layout/source-view.js'
import { counted, minutes, skillWords, standingWords } from '../layout/words.js'

const book = { href: '/rulebook', name: 'Rulebook' }

export function rulebookPage(knowledge: Knowledge): ListPage {
  const count = (things: readonly unknown[], one: string): string => counted(things.length, one)
  return {
    frame: plainFrame('Rulebook', 'rulebook'),
    heading: 'Rulebook',
    lead: 'All that the bench goes by, to read and to doubt. Each number tells where it comes from; most are estimates.',
    back: null,
    groups: [
      {
        heading: 'What can be wrong, and what to do',
        items: [
          { name: 'Causes', href: '/rulebook/causes', note: count(knowledge.causes, 'fault') },
          {
            name: 'Steps',
            href: '/rulebook/steps',
            note: `${count(knowledge.steps, 'step')}: questions and checks`,
          },
          {
            name: 'Fixes',
            href: '/rulebook/fixes',
            note: count(knowledge.fixes, 'fix').replace('fixs', 'fixes'),
          },
          { name: 'Signs', href: '/rulebook/signs', note: `${count(knowledge.signs, 'sign')} of a kind` },
        ],
      },
      {
        heading: 'What keeps hands and tools whole',
        items: [
          { name: 'Stops', href: '/rulebook/stops', note: count(knowledge.stops, 'danger') },
          { name: 'Care', href: '/rulebook/care', note: count(knowledge.care, 'habit') },
          {
            name: 'Limits of a safety test',
            href: '/rulebook/limits',
            note: count(knowledge.limits, 'named set'),
          },
        ],
      },
      {
        heading: 'Where it comes from',
        items: [
          {
            name: 'Sources',
            href: '/rulebook/sources',
            note: count(Object.keys(knowledge.sources), 'source'),
          },
          {
            name: 'How good it is',
            href: '/rulebook/proof',
            note: 'measured on simulated tools, and on repairs that others told',
          },
        ],
      },
      {
        heading: 'To try it out',
        items: [
          {
            name: 'Dry run',
            href: '/lab',
            note: 'a tool on paper: what the rulebook makes of it, and what other numbers would',
          },
        ],
      },
    ],
    folds: [
      {
        heading: 'To take into other programs',
        open: false,
        groups: [
          {
            heading: 'Causes and signs of a kind with all their chances, as a Bayesian network (XMLBIF 0.3)',
            items: knowledge.kinds.map(({ id, plainName }) => ({
              name: plainName,
              href: `/rulebook/kinds/${id}/model.xml`,
              note: '',
            })),
          },
        ],
      },
    ],
  }
}

/** @param asked kind whose fold stands open; the first one where there is none of it */
export function causesPage(knowledge: Knowledge, asked = ''): ListPage {
  const open = lookupOf(knowledge).kinds.get(asked)?.id ?? knowledge.kinds[0]?.id
  return {
    frame: plainFrame('Causes', 'rulebook'),
    heading: 'Causes',
    lead: 'What can make a tool misbehave, by kind and by the part it sits in. The count: of 1000 troubled tools of the kind, in how many it is the main cause.',
    back: '/rulebook',
    groups: [],
    folds: knowledge.kinds.map((kind) => ({
      heading: kind.plainName,
      open: kind.id === open,
      groups: kind.parts
        .map((part) => ({
          heading: part.name,
          items: knowledge.causes
            .filter((cause) => cause.part === part.id && cause.shares[kind.id] !== undefined)
            .sort((a, b) => (b.shares[kind.id] ?? 0) - (a.shares[kind.id] ?? 0))
            .map((cause) => ({
              name: cause.name,
              href: `/rulebook/causes/${cause.id}`,
              note: `${cause.shares[kind.id]} in 1000`,
            })),
        }))
        .filter(({ items }) => items.length > 0),
    })),
  }
}

const forms = {
  danger: 'Before anything else',
  ask: 'Questions',
  check: 'Checks',
} as const

export function stepsPage(knowledge: Knowledge): ListPage {
  return {
    frame: plainFrame('Steps', 'rulebook'),
    heading: 'Steps',
    lead: 'What a hand does in one go, in the order of a good bench: outside before inside, plug out before power.',
    back: '/rulebook',
    groups: Object.entries(forms).map(([form, heading]) => ({
      heading,
      items: knowledge.steps
        .filter((step) => step.form === form)
        .map((step) => ({
          name: step.title,
          href: `/rulebook/steps/${step.id}`,
          note: minutes(step.minutes),
        })),
    })),
    folds: [],
  }
}

export function fixesPage(knowledge: Knowledge): ListPage {
  return {
    frame: plainFrame('Fixes', 'rulebook'),
    heading: 'Fixes',
    lead: 'Repairs and care, by who may do them. The minutes are without taking the tool apart.',
    back: '/rulebook',
    groups: (['S1', 'S2', 'S3', 'S4'] as const)
      .map((skill) => ({
        heading: `For ${skillWords(skill)}`,
        items: knowledge.fixes
          .filter((fix) => fix.skill === skill)
          .map((fix) => ({ name: fix.name, href: `/rulebook/fixes/${fix.id}`, note: minutes(fix.minutes) })),
      }))
      .filter(({ items }) => items.length > 0),
    folds: [],
  }
}

/** @param open the one whose fold stands open */
export function stopsPage(knowledge: Knowledge, open = ''): EntryPage {
  return {
    ...bare(
      'Stops',
      'Dangers come before any count of suspects: one is enough, and it is not weighed against anything.',
    ),
    sections: knowledge.stops.map((stop) =>
      section(stop.name, {
        id: stop.id,
        fold: foldOf(stop.id, open),
        text: `${stop.grade === 'set-aside' ? 'Set aside' : 'Off the client'}. ${stop.why}`,
        ordered: true,
        items: stop.now.map((now) => item(now)),
        after: `What lifts it: ${stop.lift} ${stop.liftedBy}`,
        source: sourceView(knowledge, stop.source),
      }),
    ),
  }
}

/** @param open the one whose fold stands open */
export function carePage(knowledge: Knowledge, open = ''): EntryPage {
  const { causes } = lookupOf(knowledge)
  return {
    ...bare(
      'Care',
      'What is done how often, so that it does not happen. The maker’s manual and the label come first.',
    ),
    sections: knowledge.care.map((care) =>
      section(care.name, {
        id: care.id,
        fold: foldOf(care.id, open),
        text: `${care.every}. For ${skillWords(care.skill)}.`,
        items: [
          ...care.how.map((how) => item(how)),
          ...care.cautions.map((caution) => item(`Caution: ${caution}`)),
          ...care.prevents.map((id) =>
            item(`Prevents: ${causes.get(id)?.name ?? id}`, { href: `/rulebook/causes/${id}` }),
          ),
        ],
        source: sourceView(knowledge, care.source),
      }),
    ),
  }
}

export function sourcesPage(knowledge: Knowledge): EntryPage {
  return {
    ...bare(
      'Sources',
      'Where numbers and statements come from. An estimate is a judgement of the trade, not a count.',
    ),
    sections: Object.entries(knowledge.sources).map(([id, entry]) =>
      section(entry.title, {
        id,
        text: [`BenchState: ${standingWords(entry.standing)}.`, entry.reference ?? ''].join(' ').trim(),
        items: entry.address
          ? [item(`To read at ${new URL(entry.address).host}`, { href: entry.address })]
          : [],
      }),
    ),
  }
}

const foldOf = (id: string, open: string): 'open' | 'closed' => (id === open ? 'open' : 'closed')

function bare(heading: string, lead: string): Omit<EntryPage, 'sections'> {
  return {
    frame: plainFrame(heading, 'rulebook'),
    eyebrow: 'Rulebook',
    heading,
    lead,
    back: book,
    drawing: null,
    cautions: [],
    facts: [],
    source: null,
  }
}
