/** A rulebook small enough to follow by hand. Its numbers are made up; only its shape is tested with. */
import type { Condition, Conditions } from '../../shared/conditions.js'
import type { Finding, Fix, Knowledge, Question, Setup, Step, Stop } from '../../shared/knowledge.js'
import { folders, Moved, Question as QuestionShape, Sources } from '../../shared/knowledge.js'

const KIND = 'bench-motor'
const source = 'made-up'
const kinds = [KIND]

const is = (fact: string, value: string | number = 'yes'): Condition => ({ fact, operator: 'equal', value })
const when = (...all: Condition[]): Conditions => ({ all })

const question = (id: string, more: Partial<Question> = {}): Question =>
  QuestionShape.parse({ id, text: `Is it so: ${id}?`, statement: `It is so: ${id}`, ...more })

const setup = (id: string, more: Partial<Setup>): Setup => ({
  id,
  ...folders.setups.parse({
    kinds,
    name: id,
    how: ['Do it carefully'],
    back: ['Undo it carefully'],
    minutes: 1,
    skill: 'S1',
    needs: [],
    withPower: false,
    tools: [],
    cautions: [],
    order: 1,
    source,
    ...more,
  }),
})

const step = (id: string, setups: string[], power: boolean, questions: Question[], form = 'check'): Step => ({
  id,
  ...folders.steps.parse({
    kinds,
    form,
    title: id,
    tells: 'It tells the causes apart',
    how: [],
    minutes: 2,
    setups,
    power,
    skill: 'S1',
    tools: [],
    cautions: [],
    questions,
    order: 1,
    source,
  }),
})

const finding = (id: string, condition: Condition, strengths: Record<string, number>): Finding => ({
  id,
  ...folders.findings.parse({
    kinds,
    says: `It is so: ${id}`,
    because: 'It was made up to be so',
    leak: 0.05,
    strengths,
    source,
  }),
  when: when(condition),
})

const fix = (id: string, cures: Record<string, number>, more: Partial<Fix> = {}): Fix => ({
  id,
  ...folders.fixes.parse({
    kinds,
    name: id,
    cures,
    minutes: 3,
    setups: [],
    skill: 'S1',
    parts: [],
    tools: [],
    cautions: ['Plug out first'],
    steps: [{ do: 'Do it carefully' }],
    cured: 'It runs as it should',
    order: 1,
    source,
    ...more,
  }),
})

const cause = (id: string, share: number, exclusive = false) => ({
  id,
  ...folders.causes.parse({
    name: `Cause ${id}`,
    part: 'motor',
    description: 'It makes the tool misbehave',
    shares: { [KIND]: share },
    exclusive,
    ifIgnored: 'It gets worse with time',
    service: 'mend',
    source,
  }),
})

const stop = (id: string, grade: Stop['grade'], condition: Conditions): Stop => ({
  id,
  ...folders.stops.parse({
    kinds,
    grade,
    name: id,
    when: condition,
    why: 'It hurts people',
    now: ['Pull the plug', 'Set it aside'],
    lift: 'It is tested and found safe',
    liftedBy: 'Somebody who may test it',
    checkQuestion: 'Was that a slip of the finger?',
    order: 1,
    source,
  }),
})

export const tinyRulebook: Knowledge = {
  kinds: [
    {
      id: KIND,
      ...folders.kinds.parse({
        name: 'Bench motor',
        plainName: 'the bench motor',
        runsOn: 'cord',
        look: 'as the test has it',
        tell: ['It has a cord', 'It has a motor'],
        works: 'The motor turns and the blade moves',
        drawing: 'universal-motor',
        parts: [
          { id: 'motor', name: 'Motor' },
          { id: 'cord', name: 'Cord' },
          { id: 'blade', name: 'Blade' },
        ],
        severalFaults: { share: 0.1, source },
        order: 1,
        source,
      }),
    },
  ],
  setups: [
    setup('plug-out', { order: 1 }),
    setup('blade-off', { needs: ['plug-out'], withPower: true, order: 2 }),
    setup('caps-out', { needs: ['plug-out'], order: 3 }),
  ],
  causes: [
    cause('brushes', 400),
    cause('cord', 300),
    cause('bearing', 200),
    cause('nothing-wrong', 100, true),
  ],
  findings: [
    finding('cuts-out', is('cuts-out'), { brushes: 0.7, cord: 0.8 }),
    finding('hot', is('hot'), { bearing: 0.9, brushes: 0.1 }),
    finding('cord-flex', is('cord-flex'), { cord: 0.95 }),
    finding('brush-short', { fact: 'brush-length', operator: 'lessThan', value: 6 }, { brushes: 0.9 }),
    finding('rough-bare', is('rough-bare'), { bearing: 0.8 }),
    finding('oil-helps', is('oil-helps'), { bearing: 0.9 }),
    finding('tingle', is('tingle'), { cord: 0.05 }),
    finding('scorched', is('scorched'), { cord: 0.05 }),
  ],
  steps: [
    step('dangers', [], false, [question('tingle'), question('scorched')], 'danger'),
    step(
      'how-it-runs',
      [],
      false,
      [question('cuts-out', { sense: 'eyes' }), question('hot', { sense: 'hands' })],
      'ask',
    ),
    step('flex-cord', [], true, [question('cord-flex')]),
    step('look-at-brushes', ['caps-out'], false, [
      question('brush-length', { kind: 'number', unit: 'mm', min: 0, max: 30 }),
    ]),
    step('run-bare', ['blade-off'], true, [question('rough-bare')]),
  ],
  fixes: [
    fix(
      'new-brushes',
      { brushes: 0.95 },
      { setups: ['caps-out'], parts: [{ name: 'Pair of brushes', cost: 6 }] },
    ),
    fix(
      'new-cord',
      { cord: 0.9 },
      {
        parts: [
          { name: 'Cord', cost: 12.5 },
          { name: 'Bush', cost: 1.25 },
        ],
      },
    ),
    fix('oil', { bearing: 0.8 }, { outcome: question('oil-helps') }),
    fix('show-the-book', { 'nothing-wrong': 0.95 }, { ends: 'nothing-found' }),
  ],
  stops: [stop('shock', 'set-aside', { any: [is('tingle'), is('scorched')] })],
  relevance: [],
  policy: [],
  care: [],
  signs: [],
  verdicts: [],
  papers: [],
  limits: [],
  levels: [],
  slips: [],
  chains: [],
  confusions: [],
  hearsay: [],
  speech: [],
  telling: [],
  sources: Sources.parse({ 'made-up': { standing: 'estimate', title: 'made up for this test' } }),
  moved: Moved.parse({}),
}
