/** What a schema finds wrong with a file, in words that name the place and the remedy. */
import type { z } from 'zod'
import type { RulebookProblem } from '../errors.js'
import { jsonErrorPosition } from './json-position.js'

type Issue = z.core.$ZodIssue

/** `questions[2].text`, as an editor's search would find it. */
export function fieldPath(path: readonly PropertyKey[]): string {
  return path.reduce<string>((so, key) => {
    if (typeof key === 'number') return `${so}[${key}]`
    return so === '' ? String(key) : `${so}.${String(key)}`
  }, '')
}

/** The problem of text that is no JSON. */
export function jsonProblem(file: string, text: string): RulebookProblem {
  const { line, column } = jsonErrorPosition(text) ?? { line: 1, column: 1 }
  return {
    file,
    field: `line ${line}, column ${column}`,
    message: 'this is not valid JSON',
    remedy: 'look here and just before for a missing or extra comma, quote or bracket',
  }
}

/** Every issue of one file, one problem each. */
export function schemaProblems(file: string, issues: readonly Issue[], data: unknown): RulebookProblem[] {
  return issues.flatMap((issue) => problemsOf(file, issue, data, []))
}

function problemsOf(
  file: string,
  issue: Issue,
  data: unknown,
  above: readonly PropertyKey[],
): RulebookProblem[] {
  const path = [...above, ...issue.path]
  const at = (message: string, remedy: string, field = fieldPath(path)): RulebookProblem[] => [
    { file, field, message, remedy },
  ]
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.flatMap((key) =>
        at('there is no such field', 'correct its name or remove it', fieldPath([...path, key])),
      )
    case 'invalid_type':
      return valueAt(data, path) === undefined
        ? at('is missing', `add it (${expected(issue.expected)})`)
        : at(`must be ${expected(issue.expected)}, and is ${shown(valueAt(data, path))}`, 'correct it')
    case 'invalid_value':
      return valueAt(data, path) === undefined
        ? at('is missing', `add one of ${issue.values.map(String).join(', ')}`)
        : at(
            `${shown(valueAt(data, path))} is not allowed`,
            `use one of ${issue.values.map(String).join(', ')}`,
          )
    case 'too_small':
      if (!issue.message.startsWith('Too small')) return at(issue.message, 'correct it')
      return at(
        ...limit(issue.origin, `at least ${issue.minimum}`, issue.inclusive === false, valueAt(data, path)),
      )
    case 'too_big':
      return at(
        ...limit(issue.origin, `at most ${issue.maximum}`, issue.inclusive === false, valueAt(data, path)),
      )
    case 'invalid_key':
      return at(`"${String(path.at(-1))}" ${issue.issues[0]?.message ?? 'is not an id'}`, 'correct the name')
    case 'invalid_format':
      return at(`${shown(valueAt(data, path))} ${formatted(issue)}`, 'correct it')
    case 'invalid_union':
      return unionProblems(file, issue, data, path)
    default:
      return at(issue.message, 'correct it')
  }
}

/** Of several allowed shapes, tell what is wrong with the one that was meant most likely. */
function unionProblems(
  file: string,
  issue: UnionIssue,
  data: unknown,
  path: readonly PropertyKey[],
): RulebookProblem[] {
  const value = valueAt(data, path)
  const message = value === undefined ? 'is missing' : `${shown(value)} is not allowed`
  const options = 'options' in issue ? (issue.options as readonly unknown[]) : []
  if (options.length > 0) {
    const remedy = `${value === undefined ? 'add' : 'use'} one of ${options.map(String).join(', ')}`
    return [{ file, field: fieldPath(path), message, remedy }]
  }
  const meant = mostLikelyMeant(issue)
  if (meant === undefined || meant.every((it) => it.path.length === 0 && it.code === 'invalid_type')) {
    return [{ file, field: fieldPath(path), message, remedy: 'see rules/schema/ for the shapes allowed' }]
  }
  return meant.flatMap((it) => problemsOf(file, it, data, path))
}

type UnionIssue = Extract<Issue, { code: 'invalid_union' }>

/** The shape that what was written fits best; of equal ones the one in which the mistake lies deepest. */
function mostLikelyMeant(issue: UnionIssue): Issue[] | undefined {
  return [...issue.errors].sort((a, b) => misfit(a) - misfit(b) || depth(b) - depth(a))[0]
}

/** How many fields are wrong, missing or foreign. */
function misfit(issues: readonly Issue[]): number {
  return issues.reduce((sum, it) => {
    if (it.code === 'unrecognized_keys') return sum + it.keys.length
    if (it.code === 'invalid_union' && it.errors.length > 0) return sum + Math.min(...it.errors.map(misfit))
    return sum + 1
  }, 0)
}

function depth(issues: readonly Issue[]): number {
  return Math.max(
    ...issues.map((it) => {
      const inner = it.code === 'invalid_union' ? mostLikelyMeant(it) : undefined
      return it.path.length + (inner === undefined ? 0 : depth(inner))
    }),
  )
}

function limit(origin: string, bound: string, strict: boolean, value: unknown): [string, string] {
  if (origin === 'array')
    return [`must hold ${bound} of them, and holds ${(value as unknown[]).length}`, 'add or remove some']
  if (origin === 'string') {
    return [`must have ${bound} characters, and has ${String(value).trim().length}`, 'reword it']
  }
  return [
    `must be ${strict ? bound.replace('at least', 'above').replace('at most', 'below') : bound}, and is ${shown(value)}`,
    'correct the number',
  ]
}

function formatted(issue: Extract<Issue, { code: 'invalid_format' }>): string {
  return issue.format === 'url' ? 'is not a web address' : issue.message
}

function expected(type: string): string {
  const words: Record<string, string> = {
    string: 'text in quotes',
    number: 'a number',
    int: 'a whole number',
    boolean: 'true or false',
    array: 'a list in [ ]',
    object: 'a group in { }',
    record: 'a group in { }',
  }
  return words[type] ?? type
}

function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing'
  return text.length > 60 ? `${text.slice(0, 57)}...` : text
}

function valueAt(data: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((at, key) => (at as Record<PropertyKey, unknown> | undefined)?.[key], data)
}
