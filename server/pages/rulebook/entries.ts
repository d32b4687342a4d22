/** One cause, step or fix of the rulebook in full. */
import type { Cause, Finding, Fix, Knowledge, Step } from '../../../shared/knowledge.js'
import { partsWords } from '../case/fix-page.js'
import { plainFrame } from '../layout/frame.js'
import { lineDrawing } from '../layout/line-drawing.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { setupsNeeded } from '../../../shared/setups-needed.js'
import type { EntryPage, Item, Section } from './rulebook-page.js'
import { item, section } from './rulebook-page.js'
import { sourceView } from '../layout/source-view.js'
import { inHundred, minutes, skillWords } from '../layout/words.js'

export function causePage(knowledge: Knowledge, cause: Cause): EntryPage {
  const kinds = knowledge.kinds.filter((kind) => cause.shares[kind.id] !== undefined)
  const shows = showing(knowledge, cause)
  const fixes = knowledge.fixes.filter((fix) => fix.cures[cause.id] !== undefined)
  const care = knowledge.care.filter(({ prevents }) => prevents.includes(cause.id))
  const parts = kinds.flatMap((kind) =>
    kind.parts.filter(({ id }) => id === cause.part).map(({ name }) => name),
  )
  return {
    frame: plainFrame(cause.name, 'rulebook'),
    eyebrow: 'Cause',
    heading: cause.name,
    lead: cause.description,
    back: { href: '/rulebook/causes', name: 'Causes' },
    drawing: null,
    cautions: cause.hazard ? [cause.hazard] : [],
    facts: [
      { term: 'Sits in', words: [...new Set(parts)].join(', ') },
      {
        term: 'At a service',
        words: cause.service === 'mend' ? 'can usually be fixed' : 'usually not worth fixing',
      },
    ],
    sections: [
      section('Fix', {
        text: fixes.length === 0 ? 'None at a barber’s bench.' : '',
        items: fixes.map((fix) =>
          item(fix.name, {
            href: `/rulebook/fixes/${fix.id}`,
            note: `cures it in ${inHundred(fix.cures[cause.id] ?? 0)}, ${minutes(fix.minutes)}, ${skillWords(fix.skill)}`,
          }),
        ),
      }),
      section('How it is confirmed', {
        text: 'The clues that speak most clearly for it.',
        items: confirming(knowledge, shows),
      }),
      section('If nothing is done', { text: cause.ifIgnored }),
      ...(cause.sendIn ? [section('When it goes to a service', { text: cause.sendIn })] : []),
      section('What keeps it off', {
        text: care.length === 0 ? 'No habit keeps it off for certain.' : '',
        items: care.map(({ id, name, every }) =>
          item(name, { href: `/rulebook/care?open=${id}#${id}`, note: every }),
        ),
      }),
      section('How it shows', {
        fold: 'closed',
        text: showsLead(shows.length),
        items: shows.map((shown) => showItem(knowledge, shown)),
      }),
      section('How often', {
        fold: 'closed',
        items: kinds.map((kind) =>
          item(kind.plainName, { note: `${cause.shares[kind.id]} in 1000 troubled tools` }),
        ),
      }),
    ].filter(hasContent),
    source: sourceView(knowledge, cause.source),
  }
}

interface Shown {
  readonly finding: Finding
  readonly strength: number
}

/** The findings that point to a cause, strongest first; where kinds differ, by the strongest of them. */
function showing(knowledge: Knowledge, cause: Cause): readonly Shown[] {
  return knowledge.findings
    .flatMap((finding) => {
      const given = finding.strengths[cause.id]
      if (given === undefined) return []
      return [{ finding, strength: typeof given === 'number' ? given : Math.max(...Object.values(given)) }]
    })
    .sort((a, b) => b.strength - a.strength)
}

function showsLead(count: number): string {
  return count === 0
    ? 'Nothing in the rulebook points to it.'
    : 'Of 100 tools with this fault alone, so many show it; and so many of 100 where none of its causes is there.'
}

function showItem(knowledge: Knowledge, { finding, strength }: Shown): Item {
  return item(finding.says, {
    href: stepHref(knowledge, finding),
    note: `${inHundred(strength)}, against ${inHundred(finding.leak)}`,
  })
}

/** As many clues as one remembers. */
const mostConfirming = 3

function confirming(knowledge: Knowledge, shows: readonly Shown[]): readonly Item[] {
  const { questions, questionOf } = lookupOf(knowledge)
  const looked = shows.filter(({ finding }) => {
    const asked = questions.get(questionOf.get(finding.id) ?? '')
    return asked?.fix || asked?.step?.form === 'check'
  })
  return (looked.length > 0 ? looked : [...shows])
    .sort((a, b) => clarity(b) - clarity(a))
    .slice(0, mostConfirming)
    .map(({ finding }) => item(finding.says, { href: stepHref(knowledge, finding), note: finding.because }))
}

/** How well a clue confirms a cause: nearly always there with it, seldom otherwise. */
function clarity({ finding, strength }: Shown): number {
  return strength ** 2 / finding.leak
}

function stepHref(knowledge: Knowledge, finding: Finding): string | null {
  const { questions, questionOf } = lookupOf(knowledge)
  const asked = questions.get(questionOf.get(finding.id) ?? '')
  if (asked?.step) return `/rulebook/steps/${asked.step.id}`
  return asked?.fix ? `/rulebook/fixes/${asked.fix.id}` : null
}

export function stepEntryPage(knowledge: Knowledge, step: Step): EntryPage {
  const { findingsOf, causes } = lookupOf(knowledge)
  const pointers = (question: string): string => {
    const ids = (findingsOf.get(question) ?? []).flatMap(({ strengths }) =>
      Object.entries(strengths).map(([cause, given]) => ({
        cause,
        strength: typeof given === 'number' ? given : Math.max(...Object.values(given)),
      })),
    )
    const names = ids
      .sort((a, b) => b.strength - a.strength)
      .map(({ cause }) => causes.get(cause)?.name.toLowerCase())
    return names.length === 0 ? '' : `Points first to ${names.slice(0, 3).join(', ')}`
  }
  return {
    frame: plainFrame(step.title, 'rulebook'),
    eyebrow: step.form === 'check' ? 'Check' : step.form === 'ask' ? 'Question' : 'Danger signs',
    heading: step.title,
    lead: step.tells,
    back: { href: '/rulebook/steps', name: 'Steps' },
    drawing: lineDrawing(step.drawing, step.title),
    cautions: step.cautions,
    facts: [
      { term: 'Takes', words: minutes(step.minutes) },
      { term: 'Hand', words: skillWords(step.skill) },
      ...(step.tools.length > 0 ? [{ term: 'To hand', words: step.tools.join(', ') }] : []),
    ],
    sections: [
      setupSection(knowledge, step.setups),
      section('How', { ordered: true, items: step.how.map((how) => item(how)) }),
      section('What it asks', {
        text: step.untickedMeansNo && step.questions.length > 1 ? 'What is not ticked means no.' : '',
        items: step.questions.map((question) => item(question.text, { note: pointers(question.id) })),
      }),
    ].filter(hasContent),
    source: sourceView(knowledge, step.source),
  }
}

export function fixEntryPage(knowledge: Knowledge, fix: Fix): EntryPage {
  const { causes } = lookupOf(knowledge)
  const care = knowledge.care.filter(({ id }) => fix.afterwards.includes(id))
  return {
    frame: plainFrame(fix.name, 'rulebook'),
    eyebrow: 'Fix',
    heading: fix.name,
    lead: '',
    back: { href: '/rulebook/fixes', name: 'Fixes' },
    drawing: lineDrawing(fix.drawing, fix.name),
    cautions: fix.cautions,
    facts: [
      { term: 'Takes', words: minutes(fix.minutes) },
      { term: 'Hand', words: skillWords(fix.skill) },
      { term: 'Parts', words: partsWords(fix) },
      ...(fix.tools.length > 0 ? [{ term: 'To hand', words: fix.tools.join(', ') }] : []),
    ],
    sections: [
      setupSection(knowledge, fix.setups),
      section('Steps', {
        ordered: true,
        items: fix.steps.map((step) =>
          item(step.do, { note: step.caution ? `Caution: ${step.caution}` : '' }),
        ),
      }),
      section('Is it cured?', { text: fix.cured }),
      ...(fix.safetyTest
        ? [
            section('Before it runs on mains again', {
              text: 'An electrical safety test by a competent person.',
              items: [item('Its limits, each set by its own name', { href: '/rulebook/limits' })],
            }),
          ]
        : []),
      section('What it cures', {
        items: Object.entries(fix.cures).map(([id, chance]) =>
          item(causes.get(id)?.name ?? id, {
            href: `/rulebook/causes/${id}`,
            note: `in ${inHundred(chance)}`,
          }),
        ),
      }),
      section('Afterwards', {
        items: care.map(({ id, name, every }) =>
          item(name, { href: `/rulebook/care?open=${id}#${id}`, note: every }),
        ),
      }),
    ].filter(hasContent),
    source: sourceView(knowledge, fix.source),
  }
}

function setupSection(knowledge: Knowledge, setups: readonly string[]): Section {
  return section('First', {
    ordered: true,
    items: setupsNeeded(knowledge.setups, setups).map(({ name, how, cautions }) =>
      item(`${name}: ${how.join(' ')}`, {
        note: cautions.length > 0 ? `Caution: ${cautions.join(' ')}` : '',
      }),
    ),
  })
}

function hasContent({ text, items }: Section): boolean {
  return text !== '' || items.length > 0
}
