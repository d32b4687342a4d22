/** The sets of test limits, each by its own name: countries differ, and a tool is judged by one set alone. */
import type { Knowledge, LimitSet } from '../../../shared/knowledge.js'
import type { Limit } from '../../../shared/limit-file.js'
import { plainFrame } from '../layout/frame.js'
import type { EntryPage } from './rulebook-page.js'
import { item, section } from './rulebook-page.js'
import { sourceView } from '../layout/source-view.js'

const measures: Readonly<Record<Limit['measure'], string>> = {
  'earth-path': 'Earth path',
  insulation: 'Insulation',
  'protective-current': 'Current in the earth wire',
  'touch-current': 'Current to a person who touches it',
}
const sorts: Readonly<Record<Limit['of'], string>> = {
  earthed: 'where it has an earth',
  I: 'class I (earthed)',
  'I-heating': 'class I with a heater',
  'I-hand-held': 'class I, held in the hand',
  II: 'class II (doubly insulated)',
  III: 'class III (extra-low voltage)',
}
const bounds = { 'at-most': 'at most', 'at-least': 'at least' } as const
const units = { ohm: 'Ω', megohm: 'MΩ', milliamp: 'mA' } as const

/** @param own the set that the shop has named; null while it has not */
export function limitsPage(knowledge: Knowledge, own: string | null): EntryPage {
  return {
    frame: plainFrame('Limits of a safety test', 'rulebook'),
    eyebrow: 'Rulebook',
    heading: 'Limits of a safety test',
    lead: 'What a tool must keep to before it runs on mains again. Countries differ, so each set stands by its own name; values of two sets are never mixed. Which one holds, and who may test, the law where you work says.',
    back: { href: '/rulebook', name: 'Rulebook' },
    drawing: null,
    cautions: [
      'A competent person takes these readings, with the test instrument and the plug out of the wall. Nobody measures on an open live tool.',
    ],
    facts: [{ term: 'This shop goes by', words: ownName(knowledge, own) ?? 'no set named yet' }],
    sections: knowledge.limits.map((set) => limitSection(knowledge, set)),
    source: null,
  }
}

/** The name of the set that the shop goes by; null where it has named none, or one that is no longer there. */
export function ownName({ limits }: Knowledge, own: string | null): string | null {
  return limits.find(({ id }) => id === own)?.name ?? null
}

function limitSection(knowledge: Knowledge, { id, name, where, limits, beware, source }: LimitSet) {
  return section(name, {
    id,
    text: where,
    items: limits.map(({ measure, of, bound, value, unit, and }) =>
      item(`${measures[measure]}, ${sorts[of]}: ${bounds[bound]} ${value} ${units[unit]}`, {
        note: and ?? '',
      }),
    ),
    after: beware.join(' '),
    source: sourceView(knowledge, source),
  })
}
