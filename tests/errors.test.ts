/** The named errors: where, what and what to do, as text and as data. */
import { expect, it } from 'vitest'
import {
  BadRequest,
  BadSetting,
  CaseNotFound,
  KnowledgeError,
  NotFound,
  StaleForm,
} from '../server/errors.js'

const problem = { file: 'rules/x.json', field: 'unit', message: 'is no unit' }

it('KnowledgeError tells every problem on a line of its own', () => {
  const error = new KnowledgeError([problem, { ...problem, field: '', remedy: 'remove it' }])
  expect(error.message).toBe(
    '2 problems in rules/:\n  rules/x.json: unit: is no unit\n  rules/x.json: is no unit; remove it',
  )
  expect(error.problems).toHaveLength(2)
})

it('KnowledgeError counts one as one, and says what could not be looked at yet', () => {
  expect(new KnowledgeError([problem], 3).message).toBe(
    '1 problem in rules/:\n  rules/x.json: unit: is no unit\n' +
      '  (3 more checks over the whole rulebook will run once every file can be read)',
  )
})

it('BadSetting tells every setting, its value and the remedy', () => {
  const setting = {
    setting: 'PORT',
    value: '80x',
    message: 'is not a whole number',
    remedy: 'use 1 to 65535',
  }
  expect(new BadSetting([setting]).message).toBe(
    '1 setting cannot be used:\n  PORT="80x": is not a whole number; use 1 to 65535',
  )
})

// RFC 9110, sections 15.5.1 (400), 15.5.5 (404), 15.5.10 (409), 15.5.16 (415)
it.each([
  [new CaseNotFound('k3'), 404, /"k3"/],
  [new NotFound('the cause "rust"'), 404, /the cause "rust"/],
  [new BadRequest('Give a number.'), 400, /^Give a number\.$/],
  [new BadRequest('Send a form.', { status: 415 }), 415, /^Send a form\.$/],
  [new StaleForm('k3'), 409, /nothing was changed/],
])('%s carries its status and says what to do', (error, status, message) => {
  expect(error.status).toBe(status)
  expect(error.message).toMatch(message)
  expect(error.name).toBe(error.constructor.name)
})
