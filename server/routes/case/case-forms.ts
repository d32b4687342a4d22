/** What the forms of a case send, as events. */
import { Router } from 'express'
import type { CaseEvent } from '../../../shared/case.js'
import type { Step } from '../../../shared/knowledge.js'
import type { Answer } from '../../../shared/situation.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { BadRequest } from '../../errors.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { answersFrom, textOf } from '../../forms/answer-form.js'
import {
  afterFixStep,
  changedStep,
  complaintStep,
  complaintTold,
  justCured,
  ownWords,
} from '../../bench/case-state.js'
import { changePage } from '../../pages/case/change-page.js'
import { complaintFrom, complaintPage } from '../../pages/case/complaint-page.js'
import { dangerPage } from '../../pages/case/danger-page.js'
import { endStates, finishPage } from '../../pages/case/finish-page.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { nowPage, nowQuestions } from '../../pages/case/now-page.js'
import type { OnBench } from '../../bench/on-bench.js'
import { dangerOpen, dangerStep } from '../../bench/on-bench.js'
import { stepPage } from '../../pages/case/step-page.js'
import { clearPage } from '../../pages/case/clear-page.js'
import { mistaken, stopBands } from '../../pages/case/stop-page.js'
import { strokesIn } from '../../forms/tool-form.js'
import { keepStrokes } from '../../tools/keep-strokes.js'
import { undoLast } from '../../bench/undo-last.js'
import type { FormResult } from './case-form.js'
import { caseForm, outOfBook, questionOf, stopOf } from './case-form.js'

/** The same bound as the stored event has. */
const longestText = 300

export function caseForms(deps: Deps): Router {
  const router = Router()
  const at = '/cases/:id'

  router.post(`${at}/complaint`, caseForm(deps, complaint))
  router.post(`${at}/danger`, caseForm(deps, danger))
  router.post(
    `${at}/answers`,
    caseForm(deps, async (on, sent, req) => {
      const read = answers(on, sent)
      if (on.known && 'store' in read)
        await keepStrokes(atHand(deps, req), on.known.tool, strokesIn(textOf(sent, 'strokes')))
      return read
    }),
  )
  router.post(`${at}/now`, caseForm(deps, now))
  router.post(`${at}/tried`, caseForm(deps, tried))
  router.post(`${at}/finish`, caseForm(deps, finish))
  router.post(
    `${at}/answers/:question`,
    caseForm(deps, (on, sent, req) => change(on, sent, questionOf(on, req))),
  )
  router.post(
    `${at}/take-back`,
    caseForm(deps, (on, sent) => ({
      store: [{ type: 'took-back', questions: [textOf(sent, 'question')] }],
      to: `/cases/${on.bench.id}/answers`,
    })),
  )
  router.post(
    `${at}/cannot-do`,
    caseForm(deps, (_on, sent) => ({ store: [{ type: 'cannot-do', id: textOf(sent, 'id') }] })),
  )
  router.post(
    `${at}/can-do`,
    caseForm(deps, (_on, sent) => ({ store: [{ type: 'can-do-after-all', id: textOf(sent, 'id') }] })),
  )
  router.post(
    `${at}/put-together`,
    caseForm(deps, () => ({ store: [{ type: 'put-together' }] })),
  )
  router.post(
    `${at}/look-further`,
    caseForm(deps, ({ assessment: { next } }) => ({
      store: [{ type: 'look-further', looks: Math.max(1, Math.round(next.outlook?.looks ?? 1)) }],
    })),
  )
  router.post(`${at}/looked-enough`, caseForm(deps, lookedEnough))
  router.post(
    `${at}/untried`,
    caseForm(deps, (on, sent) => ({
      store: [{ type: 'untried', fix: textOf(sent, 'fix') }],
      to: `/cases/${on.bench.id}/answers`,
    })),
  )
  router.post(
    `${at}/took`,
    caseForm(deps, (_on, sent) => ({
      store: [{ type: 'took', fix: textOf(sent, 'fix'), minutes: Number(textOf(sent, 'minutes')) }],
    })),
  )
  router.post(`${at}/came-back`, caseForm(deps, cameBack))
  router.post(
    `${at}/back`,
    caseForm(deps, (on) => {
      const last = undoLast(on.bench)
      return { store: last === null || last === 'complaint' ? [] : [last] }
    }),
  )
  router.post(
    `${at}/reopen`,
    caseForm(deps, () => ({ store: [{ type: 'reopened' }] })),
  )
  router.post(
    `${at}/stops/:stop/mistake`,
    caseForm(deps, (on, _sent, req) => {
      const questions = [...mistaken(on, stopOf(on, req))]
      return { store: questions.length === 0 ? [] : [{ type: 'took-back', questions }] }
    }),
  )
  router.post(
    `${at}/stops/:stop/lift`,
    caseForm(deps, (on, sent, req) => {
      const stop = stopOf(on, req)
      const by = textOf(sent, 'by')
      const problems = by === '' ? [{ field: 'by', message: 'Say who did it' }] : tooLong('by', by)
      if (problems.length > 0)
        return { putRight: { name: 'case/clear', page: clearPage(on, stop, by, problems) } }
      return { store: [{ type: 'lifted', stop: stop.id, by }] }
    }),
  )
  return router
}

function complaint(on: OnBench, sent: Sent): FormResult {
  const words = textOf(sent, 'q')
  const problems = tooLong('q', words)
  if (problems.length > 0)
    return { putRight: { name: 'case/complaint', page: complaintPage(on, sent, problems) } }
  const { told, takenBack } = complaintFrom(on, sent)
  const fresh = words !== '' && !ownWords(on.bench).includes(words)
  const store: CaseEvent[] = []
  if (told.length > 0 || fresh || !complaintTold(on.bench))
    store.push({
      type: 'answered',
      step: complaintStep,
      answers: Object.fromEntries(told.map((question) => [question, 'yes' as const])),
      when: 'now',
      ...(fresh && { words }),
    })
  if (takenBack.length > 0) store.push({ type: 'took-back', questions: [...takenBack] })
  return { store }
}

/** One tap says one sign, or none of those that are left. The whole list may be answered too, field by field. */
function danger(on: OnBench, sent: Sent): FormResult {
  const step = dangerStep(on.knowledge, on.bench.kind)
  if (!step) throw new BadRequest('This kind of tool has no danger signs.')
  const said = (answers: Readonly<Record<string, Answer>>): FormResult => ({
    store: [{ type: 'answered', step: step.id, answers, when: 'now' }],
  })
  for (const [field, answer] of [
    ['yes', 'yes'],
    ['unsure', 'cant-tell'],
  ] as const) {
    const sign = textOf(sent, field)
    if (sign === '') continue
    if (!step.questions.some(({ id }) => id === sign)) throw outOfBook(field)
    return said({ [sign]: answer })
  }
  const open = dangerOpen(on)
  const parsed = answersFrom(
    sent['rest'] === undefined || open.length === 0 ? step.questions : open,
    sent,
    'unknown',
  )
  if (parsed.ok && Object.keys(parsed.answers).length > 0) return said(parsed.answers)
  const problems = parsed.ok
    ? [{ field: 'main', message: 'Tap what is so, or “None of these”' }]
    : parsed.problems
  return { putRight: { name: 'case/danger', page: dangerPage(on, step, open, problems) } }
}

/** What is ticked already is kept; what is not, is not said. A reading that cannot be is put right first. */
function lookedEnough(on: OnBench, sent: Sent): FormResult {
  const enough: CaseEvent = { type: 'looked-enough', so: true }
  const step = stepSent(on, sent)
  const given = answersFrom(step.questions, { ...sent, rest: '' }, 'unknown')
  if (!given.ok) {
    const ids = textOf(sent, 'asked').split(',')
    const asked = step.questions.filter(({ id }) => ids.includes(id))
    return { putRight: { name: 'case/step', page: stepPage(on, step, asked, sent, given.problems) } }
  }
  if (Object.keys(given.answers).length === 0) return { store: [enough] }
  return { store: [{ type: 'answered', step: step.id, answers: given.answers, when: 'now' }, enough] }
}

function stepSent(on: OnBench, sent: Sent): Step {
  const step = lookupOf(on.knowledge).steps.get(textOf(sent, 'step'))
  if (!step) throw outOfBook('step')
  return step
}

function answers(on: OnBench, sent: Sent): FormResult {
  const step = stepSent(on, sent)
  const ids = textOf(sent, 'asked').split(',')
  const asked = step.questions.filter(({ id }) => ids.includes(id))
  if (asked.length === 0 || asked.length !== ids.length) throw outOfBook('asked')
  const parsed = answersFrom(asked, sent, 'must-answer')
  if (!parsed.ok)
    return { putRight: { name: 'case/step', page: stepPage(on, step, asked, sent, parsed.problems) } }
  const others = textOf(sent, 'also').split(',')
  const also = answersFrom(
    step.questions.filter(({ id }) => others.includes(id) && !ids.includes(id)),
    { ...sent, rest: '' },
    'unknown',
  )
  const answers = { ...(also.ok ? also.answers : {}), ...parsed.answers }
  return { store: [{ type: 'answered', step: step.id, answers, when: 'now' }] }
}

/** After a fix: the same as before, or only what is ticked; what is new is ticked in either case. */
function now(on: OnBench, sent: Sent): FormResult {
  const { before, others } = nowQuestions(on)
  const news = answersFrom(others, { ...sent, rest: '' }, 'unknown')
  const old = answersFrom(before, sent, 'unknown')
  const problems = [news, old].flatMap((read) => (read.ok ? [] : read.problems))
  if (!news.ok || !old.ok) return { putRight: { name: 'case/now', page: nowPage(on, sent, problems) } }
  const answers = { ...news.answers, ...old.answers }
  return { store: [{ type: 'answered', step: afterFixStep, answers, when: 'now' }] }
}

const outcomes = ['cured', 'better', 'no'] as const

function tried(_on: OnBench, sent: Sent): FormResult {
  const outcome = outcomes.find((value) => value === textOf(sent, 'outcome'))
  if (!outcome)
    throw new BadRequest('A fix cured it, made it better, or changed nothing.', { field: 'outcome' })
  const done: CaseEvent = { type: 'tried', fix: textOf(sent, 'fix'), outcome }
  // no change is an answer to what it does now: the same as before
  const same: CaseEvent = { type: 'answered', step: afterFixStep, answers: {}, when: 'now' }
  return { store: outcome === 'no' ? [done, same] : [done] }
}

/** It looked cured and was not: the same try, told anew. */
function cameBack(on: OnBench): FormResult {
  const fix = justCured(on.bench)
  if (fix === null) return { store: [] }
  return {
    store: [
      { type: 'untried', fix },
      { type: 'tried', fix, outcome: 'no' },
    ],
  }
}

function change(on: OnBench, sent: Sent, question: Parameters<typeof changePage>[1]): FormResult {
  const parsed = answersFrom([question], sent, 'must-answer')
  if (!parsed.ok)
    return { putRight: { name: 'case/change', page: changePage(on, question, sent, parsed.problems) } }
  const when = textOf(sent, 'when') === 'now' ? 'now' : 'as-before'
  const event: CaseEvent = {
    type: 'answered',
    step: changedStep,
    answers: parsed.answers,
    when,
  }
  return { store: [event], to: `/cases/${on.bench.id}/answers` }
}

function finish(on: OnBench, sent: Sent): FormResult {
  const given = { state: textOf(sent, 'state'), cause: textOf(sent, 'cause'), note: textOf(sent, 'note') }
  const state = endStates.find((value) => value === given.state)
  const runs = state === 'running-again'
  const off = runs ? stopBands(on)[0] : undefined
  const problems: Problem[] = [...tooLong('note', given.note)]
  if (!state) problems.push({ field: 'state', message: 'Choose how it ends' })
  if (off)
    problems.push({
      field: 'state',
      message: `It is still off the client (${off.name}): what lifts that comes before it runs again`,
    })
  else if (runs && on.assessment.unsettled.length > 0)
    problems.push({ field: 'state', message: 'Danger signs are not settled yet: answer them first' })
  if (!state || problems.length > 0)
    return { putRight: { name: 'case/finish', page: finishPage(on, given, problems) } }
  const { cause, note } = given
  const clean = textOf(sent, 'disinfected')
  return {
    store: [
      ...(clean === 'yes' || clean === 'no' ? [{ type: 'disinfected' as const, done: clean === 'yes' }] : []),
      { type: 'finished', state, ...(cause && { cause }), ...(note && { note }) },
    ],
  }
}

function tooLong(field: string, text: string): readonly Problem[] {
  return text.length > longestText
    ? [{ field, message: `Say it in at most ${longestText} characters; these are ${text.length}` }]
    : []
}
