/** A whole rulebook that fits on a page, right in everything, for tests that break one thing in it. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ownYes } from '../../shared/finding-rule.js'
import { folders, Moved, Sources, type Folder, type Knowledge } from '../../shared/knowledge.js'
import { ToldBy } from '../../shared/telling-file.js'

// oxlint-disable-next-line typescript/no-explicit-any -- tests write nonsense into files on purpose
type Loose = Record<string, any>

/** Files as data: folder, then id, then what the file holds. */
export type Files = Record<Folder, Loose> & { sources: Loose; moved: Loose }

/** A check's name, a mistake, and the lines it must print: written by hand, as an editor of rules/ would want them. */
export type Mistake = [check: string, mistake: (files: Files) => void, lines: string[]]

const kinds = ['tiny']
const source = 'guess'
const yes = (fact: string) => ({ all: [{ fact, operator: 'equal', value: 'yes' }] })
const asks = (id: string) => ({ id, text: `Is it ${id}?`, statement: `It is ${id}` })

/** A fresh copy each time, to be broken at will. */
export function tinyFiles(): Files {
  const cause = {
    part: 'blade',
    description: 'It cuts badly.',
    ifIgnored: 'It gets worse.',
    service: 'mend',
    source,
  }
  const step = {
    kinds,
    tells: 'It is quick.',
    how: [],
    minutes: 1,
    setups: [],
    skill: 'S1',
    tools: [],
    cautions: [],
    source,
  }
  const fix = {
    kinds,
    minutes: 5,
    setups: ['plug-out'],
    skill: 'S1',
    parts: [],
    tools: [],
    cautions: ['Mind the teeth.'],
    steps: [{ do: 'Do it well.' }],
    cured: 'It cuts again.',
    source,
  }
  const setup = {
    kinds,
    how: ['Do it.'],
    back: ['Undo it.'],
    minutes: 1,
    skill: 'S1',
    tools: [],
    cautions: [],
    source,
  }
  const finding = { kinds, because: 'It shows there.', leak: 0.05, source }
  const files: Files = {
    kinds: {
      tiny: {
        name: 'Tiny clipper',
        plainName: 'Tiny one',
        runsOn: 'cord',
        look: 'as the test has it',
        tell: ['It is tiny.', 'It has a cord.'],
        works: 'A motor moves a blade.',
        drawing: 'tiny',
        parts: [
          { id: 'blade', name: 'Blade' },
          { id: 'cord', name: 'Cord' },
          { id: 'body', name: 'Body' },
        ],
        severalFaults: { share: 0.1, source },
        order: 1,
        source,
      },
    },
    setups: {
      'plug-out': { ...setup, name: 'Plug out', needs: [], withPower: false, order: 1 },
      'body-open': {
        ...setup,
        name: 'Body open',
        needs: ['plug-out'],
        withPower: false,
        opensBody: true,
        order: 2,
      },
    },
    causes: {
      'dull-blade': { ...cause, name: 'Dull blade', shares: { tiny: 600 } },
      'broken-cord': { ...cause, name: 'Broken cord', part: 'cord', shares: { tiny: 300 } },
      'nothing-wrong': { ...cause, name: 'Nothing wrong', shares: { tiny: 100 }, exclusive: true },
    },
    findings: {
      pulls: { ...finding, says: 'It pulls', when: yes('pulls'), strengths: { 'dull-blade': 0.9 } },
      'cord-damaged': {
        ...finding,
        says: 'Cord damaged',
        when: yes('cord-damaged'),
        strengths: { 'broken-cord': 0.9 },
      },
      'runs-well': {
        ...finding,
        says: 'It runs well',
        when: yes('runs-well'),
        strengths: { 'nothing-wrong': 0.9 },
        running: true,
      },
      'blade-thin': {
        ...finding,
        says: 'The blade is thin',
        when: { all: [{ fact: 'thickness', operator: 'lessThan', value: 2 }] },
        strengths: { 'dull-blade': 0.5 },
        threshold: { why: 'Less is ground away.', source },
      },
    },
    steps: {
      'danger-signs': {
        ...step,
        form: 'danger',
        title: 'Danger?',
        power: false,
        questions: [asks('cord-damaged')],
        order: 0,
      },
      'how-it-cuts': {
        ...step,
        form: 'ask',
        title: 'How does it cut?',
        power: false,
        questions: [asks('pulls')],
        order: 1,
      },
      'try-it': {
        ...step,
        form: 'check',
        title: 'Try it',
        power: true,
        questions: [asks('runs-well')],
        order: 2,
      },
      'measure-blade': {
        ...step,
        form: 'check',
        title: 'Measure the blade',
        power: false,
        setups: ['plug-out'],
        questions: [{ ...asks('thickness'), kind: 'number', unit: 'mm', min: 0, max: 5 }],
        order: 3,
      },
    },
    fixes: {
      'new-blade': {
        ...fix,
        name: 'Fit a new blade',
        cures: { 'dull-blade': 0.9 },
        afterwards: ['oil-blade'],
        order: 1,
      },
      'new-cord': {
        ...fix,
        name: 'Fit a new cord',
        cures: { 'broken-cord': 0.9 },
        setups: ['body-open'],
        safetyTest: true,
        order: 2,
      },
      'leave-it': {
        ...fix,
        name: 'Leave it',
        cures: { 'nothing-wrong': 0.9 },
        ends: 'nothing-found',
        order: 3,
      },
    },
    stops: {
      'cord-damaged': {
        kinds,
        grade: 'set-aside',
        name: 'Damaged cord',
        when: yes('cord-damaged'),
        why: 'It can shock.',
        now: ['Pull the plug.', 'Set it aside.'],
        lift: 'A new cord is fitted.',
        liftedBy: 'A service.',
        checkQuestion: 'Is the cord whole after all?',
        order: 1,
        source,
      },
    },
    relevance: {
      'cord-first': {
        kinds,
        because: 'The cord first.',
        when: yes('cord-damaged'),
        hides: { power: true },
        source,
      },
    },
    policy: {
      skill: {
        because: 'It takes more skill.',
        when: { all: [{ fact: 'skill-short-by', operator: 'greaterThan', value: 0 }] },
        bars: true,
        order: 1,
        source,
      },
    },
    care: {
      'oil-blade': {
        kinds,
        name: 'Oil the blade',
        every: 'daily',
        everyDays: 1,
        minutes: 1,
        how: ['A drop of oil.'],
        cautions: [],
        prevents: ['dull-blade'],
        skill: 'S1',
        order: 1,
        source,
      },
    },
    signs: {},
    telling: Object.fromEntries(
      ToldBy.options.map((way) => [way, { what: 'It takes some telling.', chance: 0.8, source }]),
    ),
    verdicts: {},
    limits: {},
    papers: {
      'card-on-teeth': { kinds, on: 'packing', do: 'Card over the teeth.', order: 1, source },
      'plug-off': { kinds, on: 'retiring', do: 'Plug off the cord.', order: 1, source },
    },
    levels: {
      first: {
        name: 'First',
        says: 'One fault, told twice.',
        kinds: ['tiny'],
        causes: 3,
        faults: 'one',
        skill: 'S3',
        order: 1,
        source,
      },
      all: {
        name: 'All',
        says: 'Whatever comes.',
        kinds: 'all',
        causes: 'all',
        faults: 'as-they-come',
        skill: 'S3',
        order: 2,
        source,
      },
    },
    slips: {
      'opened-live': {
        kinds,
        grade: 'ends',
        name: 'Opened live',
        when: {
          all: [
            { fact: 'stands-plug-out', operator: 'equal', value: 'no' },
            { fact: 'sets-up-body-open', operator: 'equal', value: 'yes' },
          ],
        },
        why: 'It can shock.',
        right: ['Plug out.', 'Open it.'],
        order: 1,
        source,
      },
    },
    chains: {
      'cord-to-blade': {
        kinds,
        first: 'broken-cord',
        then: 'dull-blade',
        says: 'A cord that starves the motor lets the blade drag, and it goes dull.',
        order: 1,
        source,
      },
    },
    confusions: {
      'cuts-badly': {
        name: 'It cuts badly',
        looks: 'A blade that pulls and a cord that starves the motor feel alike.',
        shownBy: ['pulls', 'cord-damaged'],
        rivals: ['dull-blade', 'broken-cord'],
        splitters: [
          { finding: 'pulls', pointsTo: ['dull-blade'] },
          { finding: 'cord-damaged', pointsTo: ['broken-cord'] },
        ],
        checks: ['cord-damaged', 'pulls', 'runs-well'],
        trap: 'The blade is changed before the cord is looked at.',
        order: 1,
        source,
      },
    },
    hearsay: {
      'oil-the-cord': {
        kinds,
        name: 'Oil on the cord',
        told: 'A drop of oil keeps a cord soft.',
        stands: 'wrong',
        because: ['Oil rots it.'],
        instead: ['Plug out.', 'Wipe it.'],
        cautions: ['Plug out.'],
        part: 'cord',
        causes: ['broken-cord'],
        confusion: 'cuts-badly',
        slip: 'opened-live',
        order: 1,
        source,
      },
    },
    speech: {
      no: { role: 'not', words: ['not'], source },
      blunt: { words: ['dull'], opposite: 'sharp', source },
      sharp: { words: ['sharp'], source },
    },
    sources: { guess: { standing: 'estimate', title: 'a guess' } },
    moved: {},
  }
  // through text, so that no two files share a list: breaking one must not break another
  return JSON.parse(JSON.stringify(files)) as Files
}

/** The files as the checks see them; every file must fit its schema. */
export function knowledgeOf(files: Files): Knowledge {
  const read = (folder: Folder): unknown =>
    Object.entries(files[folder]).map(([id, data]) => ({
      id,
      ...(folder === 'findings' && { when: ownYes(id) }),
      ...folders[folder].parse(structuredClone(data)),
    }))
  const lists = Object.fromEntries(Object.keys(folders).map((folder) => [folder, read(folder as Folder)]))
  return {
    ...lists,
    sources: Sources.parse(files.sources),
    moved: Moved.parse(files.moved),
  } as unknown as Knowledge
}

/** Writes the files into a new temporary folder. Text instead of data is written as it stands. */
export function writtenRules(files: Files): string {
  const dir = mkdtempSync(join(tmpdir(), 'rules-'))
  const write = (name: string, data: unknown): void =>
    writeFileSync(join(dir, name), typeof data === 'string' ? data : JSON.stringify(data, null, 2))
  for (const folder of Object.keys(folders) as Folder[]) {
    mkdirSync(join(dir, folder))
    for (const [id, data] of Object.entries(files[folder])) write(`${folder}/${id}.json`, data)
  }
  write('sources.json', files.sources)
  write('moved.json', files.moved)
  return dir
}
