/** The page that says how good the rulebook is: plain words, marks met or not, and old figures named as old. */
import { beforeAll, describe, expect, it } from 'vitest'
import express from 'express'
import type { Express } from 'express'
import type { KindFigures, ProofFigures, Work } from '../../shared/proof.js'
import type { Deps } from '../../server/wiring/deps.js'
import { errorPage } from '../../server/wiring/error-page.js'
import { setUpViews } from '../../server/pages/render.js'
import { kindDigest } from '../../server/proof/kind-digest.js'
import { proofRoutes } from '../../server/routes/rulebook/proof-routes.js'
import {
  allOf,
  cause,
  finding,
  fix,
  is,
  KIND,
  question,
  rulebook,
  step,
  stop,
} from '../diagnosis/small-rulebook.js'
import { Visitor } from './visitor.js'

const knowledge = rulebook({
  causes: [cause('worn', 60, { name: 'Worn brushes' }), cause('dirty', 40, { name: 'Dirty commutator' })],
  findings: [finding('slow', { worn: 0.7 })],
  steps: [step('look', [question('slow', { text: 'Does it slow down?' })])],
  fixes: [fix('renew', { worn: 0.9 })],
  stops: [stop('live-case', 'set-aside', allOf(is('slow')))],
})

const est = (mean: number, se = 0.01) => ({ mean, se })
const work: Work = {
  steps: est(4.94, 0.2),
  fixes: est(1.1),
  minutes: est(19, 2),
  cost: est(48.6, 3.4),
  mended: est(0.53),
  sentIn: est(0.24),
  setAside: est(0.23),
}
const row = { off: false, wrong: 0, again: false, lost: null, work: null, dearer: null }
const figures: KindFigures = {
  rulebook: kindDigest(knowledge, KIND),
  settings: { tools: 2000, courses: 250, offTools: 1000, offCourses: 40, spread: 0.7, seeds: 'numbered' },
  isolation: [est(0.861), est(0.94), est(0.991)],
  atBest: [est(0.9), est(0.99), est(1, 0)],
  oneRepair: [est(0.93), est(0.97), est(0.99)],
  inTurn: [est(0.91), est(0.95), est(0.98)],
  causeFirst: est(0.83),
  detected: 0.994,
  grouped: [1, 1, 1],
  alike: [{ causes: ['worn', 'dirty'], apart: 0.21, sameRepair: false }],
  idle: ['slow'],
  unconfirmed: ['dirty'],
  unreached: ['live-case'],
  work,
  causes: {
    worn: { share: 0.6, confirmed: 0.8, tools: 30, work },
    dirty: { share: 0.4, confirmed: 0.2, tools: 20, work },
  },
  confusions: [{ cause: 'dirty', takenFor: 'worn', cost: 27.5668 }],
  robust: [
    { ...row, isolation: [est(0.86), est(0.94), est(0.99)], work, dearer: est(0, 0) },
    { ...row, off: true, isolation: [est(0.8), est(0.9), est(0.95)], work, dearer: est(2.2, 1.4) },
    { ...row, wrong: 0.1, isolation: [est(0.48), est(0.63), est(0.76)], lost: est(0.38) },
  ],
  sample: { within: [1, 2], causeFirst: [1, 0], costs: [12.5] },
}
const proof: ProofFigures = {
  kinds: { [KIND]: figures },
  told: {
    digest: '0'.repeat(64),
    stories: 2,
    causes: [
      {
        story: 'one',
        kind: KIND,
        cause: 'worn',
        byPrior: 1,
        afterComplaint: 1,
        afterAll: 1,
        half: 'held-back',
        thin: false,
        chance: 0.5,
        leader: { chance: 0.5, right: true },
        miss: null,
      },
      {
        story: 'two',
        kind: KIND,
        cause: 'dirty',
        byPrior: 2,
        afterComplaint: 9,
        afterAll: 7,
        half: 'tuned-on',
        thin: true,
        chance: 0.1,
        leader: { chance: 0.6, right: false },
        miss: { verdict: 'case thin', because: 'It says “slow” and no more.' },
      },
    ],
  },
}

function appWith(read: () => ProofFigures | null): Express {
  const app = express()
  setUpViews(app, { production: false })
  const rulebookNow = { current: () => ({ knowledge }), keptOut: () => null }
  app.use(proofRoutes({ rulebook: rulebookNow, cases: {} } as unknown as Deps, read))
  app.use(errorPage())
  return app
}
let me: Visitor
beforeAll(() => {
  me = new Visitor(appWith(() => proof))
})

describe('all kinds', () => {
  it('says of each mark whether it is met, in counts of 100', async () => {
    await me.open('/rulebook/proof')
    expect(me.status).toBe(200)
    expect(me.words).toMatch(/86 ±1 met .*94 ±1 not met .*99 ±1 met/)
    expect(me.words).toContain('mark 85')
    // log loss alone, further down, is no count
    expect(me.words.split('Repairs that others told')[0]).not.toMatch(/0\.[3-9]|%/)
  })

  it('does not round what is under a mark up to it', async () => {
    const nearly = { ...figures, isolation: [est(0.8496), est(0.9501), est(0.9)] as KindFigures['isolation'] }
    const visitor = new Visitor(appWith(() => ({ ...proof, kinds: { [KIND]: nearly } })))
    await visitor.open('/rulebook/proof')
    expect(visitor.words).toMatch(/84 ±1 not met .*95 ±1 met/)
  })

  it('tells what it takes, how it ends, and what the told repairs came to, with each miss and why', async () => {
    await me.open('/rulebook/proof')
    for (const words of [
      '4.9 ±0.2',
      '19 ±2',
      '49 ±3',
      'held back',
      'Log loss',
      'Dirty commutator, place 7',
      'Case thin. It says “slow” and no more.',
    ])
      expect(me.words).toContain(words)
    expect(me.words).not.toContain('Old or missing')
  })

  it('names its columns where a phone shows cell under cell', async () => {
    await me.open('/rulebook/proof')
    expect(me.html).toContain('data-column="Minutes"')
  })
})

describe('one kind', () => {
  it('names what is missing, and what was dear', async () => {
    await me.open(`/rulebook/proof/${KIND}`)
    expect(me.status).toBe(200)
    for (const words of [
      'Worn brushes and Dirty commutator',
      'at most 21 of 100 tools differ',
      'in 20 of 100 of its tools',
      'Does it slow down?',
      'live-case',
      '27.57',
      'Tools off',
      '10 of 100 answers wrong',
    ])
      expect(me.words).toContain(words)
  })

  it.each(['steam-engine', 'constructor', '..%2f..%2fpackage'])('has no page for %s', async (kind) => {
    await me.open(`/rulebook/proof/${kind}`)
    expect(me.status).toBe(404)
  })
})

describe('figures that no longer hold', () => {
  const old = { ...proof, kinds: { [KIND]: { ...figures, rulebook: 'f'.repeat(64) } } }
  it.each(['/rulebook/proof', `/rulebook/proof/${KIND}`])(
    'are called old on %s, and how to renew them',
    async (path) => {
      const visitor = await new Visitor(appWith(() => old)).open(path)
      expect(visitor.words).toContain(
        'Old or missing. Bench motor: its rules have changed since this was measured',
      )
      expect(visitor.words).toContain('npm run prove')
    },
  )

  it('that were never taken are said to be missing', async () => {
    const visitor = await new Visitor(appWith(() => null)).open('/rulebook/proof')
    expect(visitor.status).toBe(200)
    expect(visitor.words).toContain('There are no figures')
  })
})
