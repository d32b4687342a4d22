/** The door to the rulebook: frozen knowledge in order, or every problem of every file at once. */
import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterEach, describe, expect, it } from 'vitest'
import { KnowledgeError, problemLine } from '../../server/errors.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { tinyFiles, writtenRules, type Files } from './tiny-rulebook.js'

const written: string[] = []

/** A rulebook on disk, right in everything but the given mistake. It draws nothing: drawings are the project's. */
function rules(mistake: (files: Files) => void = () => {}): string {
  const files = tinyFiles()
  files.kinds.tiny.drawing = 'universal-motor'
  mistake(files)
  const dir = writtenRules(files)
  written.push(dir)
  return dir
}

function errorOf(dir: string): KnowledgeError {
  try {
    loadKnowledge(dir)
  } catch (error) {
    if (error instanceof KnowledgeError) return error
    throw error
  }
  throw new Error('the rulebook was loaded, although it holds a mistake')
}

afterEach(() => written.splice(0).forEach((dir) => rmSync(dir, { recursive: true })))

describe('a good rulebook', () => {
  it('is loaded from a path or an address, with ids from the file names', () => {
    const dir = rules()
    expect(loadKnowledge(dir).causes.map((it) => it.id)).toEqual([
      'broken-cord',
      'dull-blade',
      'nothing-wrong',
    ])
    expect(loadKnowledge(pathToFileURL(`${dir}/`))).toEqual(loadKnowledge(dir))
  })

  it('comes in its own order: by "order" where a file has one, then by id', () => {
    const knowledge = loadKnowledge(rules((it) => (it.fixes['new-cord'].order = 1)))
    expect(knowledge.steps.map((it) => it.id)).toEqual([
      'danger-signs',
      'how-it-cuts',
      'try-it',
      'measure-blade',
    ])
    expect(knowledge.fixes.map((it) => it.id)).toEqual(['new-blade', 'new-cord', 'leave-it'])
  })

  it('is frozen all the way down', () => {
    const knowledge = loadKnowledge(rules())
    expect(() => (knowledge.steps as unknown[]).push({})).toThrow(TypeError)
    expect(() => ((knowledge.fixes[0]!.cures as Record<string, number>)['dull-blade'] = 1)).toThrow(TypeError)
    expect(() => (knowledge.steps[0]!.questions[0]!.words as string[]).push('x')).toThrow(TypeError)
  })

  it('fills in what a file may leave out, and drops what is for editors only', () => {
    const knowledge = loadKnowledge(
      rules((it) => (it.causes['dull-blade'].$schema = '../schema/cause.schema.json')),
    )
    expect(knowledge.steps[0]!.questions[0]!.kind).toBe('yes-no')
    expect(knowledge.causes.some((it) => '$schema' in it)).toBe(false)
  })
})

describe('a mistake in a file', () => {
  it('is told with its place: a misspelt field, a wrong type, a missing text, a number out of range', () => {
    const error = errorOf(
      rules((it) => {
        const step = it.steps['measure-blade']
        step.minute = 1
        step.minutes = 'two'
        delete step.title
        step.skill = 'S9'
        step.questions[0].unit = 'milimetre'
        it.findings.pulls.leak = 0
        it.findings.pulls.strengths['dull-blade'] = 1
      }),
    )
    expect(error.message.split('\n').map((it) => it.trim())).toEqual([
      '7 problems in rules/:',
      'rules/findings/pulls.json: leak: must be at least 0.001, and is 0; correct the number',
      'rules/findings/pulls.json: strengths.dull-blade: must be at most 0.999, and is 1; correct the number',
      'rules/steps/measure-blade.json: title: is missing; add it (text in quotes)',
      'rules/steps/measure-blade.json: minutes: must be a number, and is "two"; correct it',
      'rules/steps/measure-blade.json: skill: "S9" is not allowed; use one of S1, S2, S3, S4',
      'rules/steps/measure-blade.json: questions[0].unit: "milimetre" is not allowed; use one of mm, degC, min, ohm, V, W, percent, per-minute',
      'rules/steps/measure-blade.json: minute: there is no such field; correct its name or remove it',
      expect.stringMatching(
        /^\(\d+ more checks over the whole rulebook will run once every file can be read\)$/,
      ),
    ])
  })

  it.each([
    ['{\n  "name": "Blade",,\n}', 'line 2, column 19'],
    ['{ "name": Blade }', 'line 1, column 11'],
    ['{\n  "name": "Blade"\n', 'line 3, column 1'],
    ['', 'line 1, column 1'],
  ])('is told with line and column where it is no JSON: %j', (text, place) => {
    expect(errorOf(rules((it) => (it.causes['dull-blade'] = text))).problems).toEqual([
      {
        file: 'rules/causes/dull-blade.json',
        field: place,
        message: 'this is not valid JSON',
        remedy: 'look here and just before for a missing or extra comma, quote or bracket',
      },
    ])
  })

  // json-rules-engine 7.3.1 lets an empty list fire, reads only one of `all` and `any`, and lets
  // `notEqual` hold for a fact that nobody gave: such conditions must never reach it
  it.each([
    [{ all: [] }, ['when.all: must hold at least one condition; correct it']],
    [
      { all: [], any: [] },
      [
        'when.all: must hold at least one condition; correct it',
        'when.any: there is no such field; correct its name or remove it',
      ],
    ],
    [
      { all: [{ fact: 'pulls', operator: 'notEqual', value: 'no' }] },
      [
        'when.all[0].operator: "notEqual" is not allowed; use one of equal, in, lessThan, lessThanInclusive, greaterThan, greaterThanInclusive',
      ],
    ],
    [
      { any: [{ fact: 'pulls', operator: 'equal' }] },
      ['when.any[0].value: is missing; see rules/schema/ for the shapes allowed'],
    ],
    [
      { all: [{ any: [{ fact: 'pulls', operator: 'lessThan', value: '2' }] }] },
      ['when.all[0].any[0].value: must be a number, and is "2"; correct it'],
    ],
    [
      { not: { fact: 'pulls', operator: 'equal', value: 'yes' } },
      [
        'when.all: is missing; add it (a list in [ ])',
        'when.not: there is no such field; correct its name or remove it',
      ],
    ],
    ['pulls', ['when: "pulls" is not allowed; see rules/schema/ for the shapes allowed']],
  ])('in a condition is told: %j', (when, lines) => {
    const { problems } = errorOf(rules((it) => (it.findings.pulls.when = when)))
    expect(problems.map(problemLine)).toEqual(lines.map((line) => `rules/findings/pulls.json: ${line}`))
  })

  it('does not hide the mistakes of other files, and is not blamed on those that point to it', () => {
    const error = errorOf(
      rules((it) => {
        it.causes['dull-blade'].service = 'bin'
        it.fixes['new-cord'].cures.blunt = 0.5
      }),
    )
    expect(error.problems.map((it) => it.file)).toEqual([
      'rules/causes/dull-blade.json',
      'rules/fixes/new-cord.json',
    ])
    expect(error.waiting).toBeGreaterThan(0)
  })

  it('is told all at once, several in one file and from several checks', () => {
    const error = errorOf(
      rules((it) => {
        Object.assign(it.findings.pulls, {
          strengths: { 'dull-blade': 0.9, blunt: 0.5 },
          source: 'hearsay',
          because: 'TODO',
        })
      }),
    )
    expect(error.problems.map((it) => it.field)).toEqual(['strengths.blunt', 'source', 'because'])
    expect(error.message).toMatch(
      /^3 problems in rules\/:\n {2}rules\/findings\/pulls\.json: strengths\.blunt: /,
    )
  })
})

describe('what does not belong in the folder', () => {
  it('is told: a bad file name, another sort of file, a folder that nothing reads, a missing file', () => {
    const dir = rules((it) => (it.causes['Rusty Blade'] = it.causes['dull-blade']))
    writeFileSync(join(dir, 'causes', 'notes.txt'), 'to do')
    writeFileSync(join(dir, 'stop'), '')
    rmSync(join(dir, 'moved.json'))
    expect(errorOf(dir).message).toMatch(
      /rules\/stop: nothing reads this; move it to one of kinds, .*\n.*Rusty Blade\.json: its name must be lower-case words.*; rename the file\n.*notes\.txt: only \.json files belong here; rename or move it\n.*moved\.json: there is no such file; add it; \{\} will do/,
    )
  })
})
