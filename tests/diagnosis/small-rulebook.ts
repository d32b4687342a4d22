/** Parts of a rulebook with made-up content, to be put together by a test: only what it is about is named. */
import type { Condition, Conditions } from '../../shared/conditions.js'
import type {
  Fix,
  Knowledge,
  Policy,
  Question,
  Relevance,
  Setup,
  Step,
  Stop,
} from '../../shared/knowledge.js'
import type { Cause, Finding, Kind } from '../../shared/knowledge.js'
import { folders, Question as QuestionShape } from '../../shared/knowledge.js'
import type { Answer, Situation } from '../../shared/situation.js'
import { ShopSettings, Situation as SituationShape } from '../../shared/situation.js'

export const KIND = 'bench-motor'
const kinds = [KIND]
const source = 'made-up'

export const is = (fact: string, value: string | number = 'yes'): Condition => ({
  fact,
  operator: 'equal',
  value,
})
export const allOf = (...all: Condition[]): Conditions => ({ all })
export const anyOf = (...any: Condition[]): Conditions => ({ any })

export const question = (id: string, more: Partial<Question> = {}): Question =>
  QuestionShape.parse({ id, text: `Is it so: ${id}?`, statement: `It is so: ${id}`, ...more })

export const cause = (id: string, share: number, more: Partial<Cause> = {}): Cause => ({
  id,
  ...folders.causes.parse({
    name: `Cause ${id}`,
    part: 'motor',
    description: 'It makes the tool misbehave',
    shares: { [KIND]: share },
    ifIgnored: 'It gets worse with time',
    service: 'mend',
    source,
    ...more,
  }),
})

/** True when its question, which has the same id unless told, is answered yes. */
export const finding = (
  id: string,
  strengths: Record<string, number>,
  more: Partial<Finding> = {},
): Finding => ({
  id,
  ...folders.findings.parse({
    kinds,
    says: `It is so: ${id}`,
    because: 'It was made up to be so',
    leak: 0.05,
    strengths,
    source,
    ...more,
  }),
  when: more.when ?? allOf(is(id)),
})

/** Asks the questions of these ids. */
export const step = (id: string, asks: (string | Question)[], more: Partial<Step> = {}): Step => ({
  id,
  ...folders.steps.parse({
    kinds,
    form: 'check',
    title: id,
    tells: 'It tells the causes apart',
    how: [],
    minutes: 2,
    setups: [],
    power: false,
    skill: 'S1',
    tools: [],
    cautions: [],
    questions: asks.map((q) => (typeof q === 'string' ? question(q) : q)),
    order: 1,
    source,
    ...more,
  }),
})

export const fix = (id: string, cures: Record<string, number>, more: Partial<Fix> = {}): Fix => ({
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

export const setup = (id: string, more: Partial<Setup> = {}): Setup => ({
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

export const stop = (id: string, grade: Stop['grade'], when: Conditions): Stop => ({
  id,
  ...folders.stops.parse({
    kinds,
    grade,
    name: id,
    when,
    why: 'It hurts people',
    now: ['Pull the plug', 'Set it aside'],
    lift: 'It is tested and found safe',
    liftedBy: 'Somebody who may test it',
    checkQuestion: 'Was that a slip of the finger?',
    order: 1,
    source,
  }),
})

export const relevance = (id: string, when: Conditions, hides: Partial<Relevance['hides']>): Relevance => ({
  id,
  ...folders.relevance.parse({ kinds, because: 'It makes no sense now', when, hides, source }),
})

export const policy = (id: string, when: Conditions, because = 'Not in this shop'): Policy => ({
  id,
  ...folders.policy.parse({ because, when, bars: true, order: 1, source }),
})

const kind: Kind = {
  id: KIND,
  ...folders.kinds.parse({
    name: 'Bench motor',
    plainName: 'the bench motor',
    runsOn: 'cord',
    look: 'as the test has it',
    tell: ['It has a cord', 'It has a motor'],
    works: 'The motor turns and the blade moves',
    drawing: 'clipper',
    parts: ['motor', 'cord', 'blade'].map((id) => ({ id, name: `The ${id}` })),
    severalFaults: { share: 0.1, source },
    order: 1,
    source,
  }),
}

/** Everything not named is empty. */
export const rulebook = (parts: Partial<Knowledge>): Knowledge => ({
  kinds: [kind],
  setups: [],
  causes: [],
  findings: [],
  steps: [],
  fixes: [],
  stops: [],
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
  sources: {},
  moved: {},
  ...parts,
})

export const situation = (answers: Record<string, Answer>, more: Partial<Situation> = {}): Situation =>
  SituationShape.parse({ kind: KIND, answers, ...more })

/** Nobody reads a page: sums can be done by hand. */
export const shop = (more: Partial<ShopSettings> = {}): ShopSettings =>
  ShopSettings.parse({ screens: null, ...more })
