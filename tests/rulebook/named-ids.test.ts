/** Where ids stand is said once, in the schemas: what follows from that. */
import { expect, it } from 'vitest'
import { withIdsOfToday } from '../../shared/ids-of-today.js'
import { Exercise } from '../../shared/practice.js'
import { folders } from '../../shared/knowledge.js'
import { idsNamed } from '../../shared/named-ids.js'
import { tinyFiles } from './tiny-rulebook.js'

const named = (folder: keyof typeof folders, file: object): string[] =>
  idsNamed(folders[folder], file).map(({ list, id, path }) => `${list} ${id} at ${path.join('.')}`)

it('finds what a file names: in lists, as keys, in conditions however deep, and under forKind', () => {
  const { relevance, fixes } = tinyFiles()
  const is = (fact: string) => ({ fact, operator: 'equal', value: 'yes' })
  const when = { any: [is('pulls'), { all: [is('cord-damaged')] }] }
  expect(named('relevance', { ...relevance['cord-first'], when, hides: { fixes: ['new-cord'] } })).toEqual([
    'kinds tiny at kinds.0',
    'findings pulls at when.any.0.fact',
    'findings cord-damaged at when.any.1.all.0.fact',
    'fixes new-cord at hides.fixes.0',
    'sources guess at source',
  ])
  expect(named('fixes', { ...fixes['new-blade'], forKind: { tiny: { setups: ['plug-out'] } } })).toEqual(
    expect.arrayContaining([
      'causes dull-blade at cures.dull-blade',
      'kinds tiny at forKind.tiny',
      'setups plug-out at forKind.tiny.setups.0',
    ]),
  )
})

it('follows a name that was changed twice, and adds up the points of two causes that became one', () => {
  const exercise = Exercise.parse({
    id: 'some',
    learner: 'somebody',
    kind: 'tiny',
    level: 'first',
    seed: 1,
    setting: { about: 'a' },
    begunAt: '2026-03-02T09:00:00Z',
    changedAt: '2026-03-02T09:00:00Z',
    moves: [{ type: 'spread', spread: { points: { a: 30, b: 20, c: 50 }, other: 0 } }],
  })
  const now = withIdsOfToday(Exercise, exercise, { causes: { a: 'between', between: 'b' } })
  expect(now).toEqual({
    ...exercise,
    setting: { ...exercise.setting, about: 'b' },
    moves: [{ type: 'spread', spread: { points: { b: 50, c: 50 }, other: 0 } }],
  })
})
