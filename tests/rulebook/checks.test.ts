/** Each check finds the one mistake it is for, in a tiny rulebook that is right in everything else. */
import { describe, expect, it } from 'vitest'
import { problemLine } from '../../server/errors.js'
import { checks, runChecks } from '../../server/rulebook/checks.js'
import { rulebookOf } from '../../server/rulebook/rulebook.js'
import { causesAndShares, setupsAndDanger } from './mistakes/cause-mistakes.js'
import { conditions, questionsAndFindings } from './mistakes/finding-mistakes.js'
import { chains } from './mistakes/chain-mistakes.js'
import { lessons } from './mistakes/lesson-mistakes.js'
import { limits } from './mistakes/limit-mistakes.js'
import { papers } from './mistakes/paper-mistakes.js'
import { ids, kinds, references } from './mistakes/reference-mistakes.js'
import { signs } from './mistakes/sign-mistakes.js'
import { telling } from './mistakes/telling-mistakes.js'
import { speech } from './mistakes/speech-mistakes.js'
import { verdicts } from './mistakes/verdict-mistakes.js'
import { slips } from './mistakes/slip-mistakes.js'
import { knowledgeOf, tinyFiles } from './tiny-rulebook.js'

const mistakes = [
  ...references,
  ...ids,
  ...kinds,
  ...conditions,
  ...questionsAndFindings,
  ...causesAndShares,
  ...setupsAndDanger,
  ...signs,
  ...telling,
  ...speech,
  ...verdicts,
  ...papers,
  ...limits,
  ...slips,
  ...chains,
  ...lessons,
]

const drawings = new Set(['tiny'])
const partsDrawn = new Map([['tiny', new Set(['blade', 'cord', 'body'])]])

describe('the checks', () => {
  it('find nothing in the tiny rulebook, which is right in everything', () => {
    expect(runChecks(rulebookOf(knowledgeOf(tinyFiles()), { drawings, partsDrawn }))).toEqual({
      problems: [],
      waiting: [],
    })
  })

  it.each(mistakes)('%s', (name, mistake, lines) => {
    const files = tinyFiles()
    mistake(files)
    const check = checks.find((it) => it.name === name)
    expect(
      check
        ?.run(rulebookOf(knowledgeOf(files), { drawings, partsDrawn }))
        .map(problemLine)
        .sort(),
    ).toEqual([...lines].sort())
  })

  it('have a test each, and a name and a description of their own', () => {
    const tested = new Set(mistakes.map(([name]) => name))
    expect(checks.map((it) => it.name).filter((name) => !tested.has(name))).toEqual([])
    expect(new Set(checks.map((it) => it.name)).size).toBe(checks.length)
    expect(new Set(checks.map((it) => it.description)).size).toBe(checks.length)
  })
})
