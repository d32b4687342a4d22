/** What each way of playing deserves (table.json: common practice, no source), held against what the score says. */
import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { z } from 'zod'
import { preparedRulebook } from '../../the-rulebook.js'
import { mean, scoresOf } from './measured.js'
import { players } from './players.js'

const table = z
  .strictObject({
    source: z.string(),
    players: z.record(z.string(), z.strictObject({ says: z.string(), from: z.number(), to: z.number() })),
    order: z.array(z.tuple([z.string(), z.string()])),
  })
  .parse(JSON.parse(readFileSync(new URL('table.json', import.meta.url), 'utf8')))

/** Rows that the score does not keep to yet: it counts minutes, and a quick needless look costs hardly any. */
const notYet = ['beginner', 'sure and wrong']
const rows = Object.entries(table.players)

describe.each([{ kind: 'universal-motor', level: 'sweeping-the-floor', tools: 6 }])(
  '$level, $kind',
  (sample) => {
    let scores: Readonly<Record<string, readonly number[]>>
    beforeAll(async () => {
      scores = await scoresOf(await preparedRulebook(), sample)
    })

    it('everybody in the table plays', () => {
      expect(Object.keys(players).sort()).toEqual(Object.keys(table.players).sort())
    })
    const isWithin = (name: string, { from, to }: { readonly from: number; readonly to: number }): void => {
      expect(mean(scores[name]!)).toBeGreaterThanOrEqual(from)
      expect(mean(scores[name]!)).toBeLessThanOrEqual(to)
    }
    it.each(rows.filter(([name]) => !notYet.includes(name)))(
      '%s has what that deserves, on average',
      isWithin,
    )
    it.fails.each(rows.filter(([name]) => notYet.includes(name)))('%s has more than that deserves', isWithin)
    it.each(table.order)('%s stands above %s', (better, worse) => {
      expect(mean(scores[better]!)).toBeGreaterThan(mean(scores[worse]!))
    })
    it('no tool is so lucky for a guess that a good plan would not have done better', () => {
      scores['good']!.forEach((good, k) => expect(scores['guess']![k]!).toBeLessThan(good))
    })
  },
)
