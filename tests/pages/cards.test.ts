/** The plan on paper as pages: which card, the card with its foot, figures that are old, and what has no card. */
import express from 'express'
import type { Express } from 'express'
import { beforeAll, describe, expect, it } from 'vitest'
import type { CardFigure, CardFigures } from '../../shared/card-figures.js'
import { cardOf, commonOf } from '../../server/remembered/cards.js'
import type { Deps } from '../../server/wiring/deps.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import { errorPage, notFound } from '../../server/wiring/error-page.js'
import { setUpViews } from '../../server/pages/render.js'
import { paperDigest } from '../../server/practice/card-figures.js'
import { kindDigest } from '../../server/proof/kind-digest.js'
import { practiceCardRoutes } from '../../server/routes/practice/card-routes.js'
import { Visitor } from './visitor.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const kind = 'universal-motor'
const complaint = 'cuts-in-and-out'
const path = `/practice/cards/${kind}/${complaint}`
const prepared = await preparedRulebook()

function appWith(read: () => CardFigures | null): Express {
  const app = express()
  setUpViews(app, { production: true })
  const since = new Date('2026-03-02T12:00:00Z')
  const rulebook = { current: () => ({ knowledge, prepared, since }), keptOut: () => null }
  app.use(practiceCardRoutes({ rulebook, cases: {} } as unknown as Deps, read))
  app.use(notFound())
  app.use(errorPage())
  return app
}

let figure: CardFigure
const figuresWith = (
  more: Partial<CardFigure> = {},
  rulebook = kindDigest(knowledge, kind),
): CardFigures => ({
  kinds: { [kind]: { rulebook, complaints: { [complaint]: { ...figure, ...more } } } },
})
const cardWith = async (figures: CardFigures | null, at = path): Promise<Visitor> =>
  new Visitor(appWith(() => figures)).open(at)

beforeAll(async () => {
  figure = {
    tools: 48,
    questions: 12,
    paper: paperDigest(await cardOf(prepared, kind, complaint)),
    full: 40,
    fullMinutes: 21.3,
    minutes: 22.8,
    more: { mean: -0.4, se: 1 },
    lost: { mean: 1.2, se: 0.4 },
    left: 0.6,
  }
})

describe('the list of cards', () => {
  it('asks for the kind, then has its commonest complaints first and every other one once', async () => {
    const me = new Visitor(appWith(() => null))
    await me.open('/practice/cards')
    for (const { plainName } of knowledge.kinds) expect(me.words).toContain(plainName)
    expect(me.words).not.toContain('Told most often')
    await me.open(`/practice/cards?kind=${kind}`)
    const links = [...me.html.matchAll(/href="\/practice\/cards\/universal-motor\/([a-z-]+)"/g)].map(
      (it) => it[1],
    )
    expect(links.slice(0, 5)).toEqual(commonOf(prepared, kind))
    expect(new Set(links).size).toBe(links.length)
    expect(links).toContain(complaint)
    // a danger sign is no puzzle
    expect(links).not.toContain('tingle-or-shock')
    // every link leads to a card: a question of a step that the kind shares, but not of the kind, has none
    for (const { id } of knowledge.kinds) {
      await me.open(`/practice/cards?kind=${id}`)
      const told = [...me.html.matchAll(/href="\/practice\/cards\/[a-z-]+\/([a-z-]+)"/g)].map((it) => it[1]!)
      const { findingsOfQuestion } = kindOf(prepared, id).model
      expect(told.filter((question) => !findingsOfQuestion.has(question))).toEqual([])
    }
  })
})

describe('a card', () => {
  it('says the danger signs first, then the questions, the repairs, where it ends, and what it costs', async () => {
    const { status, words } = await cardWith(figuresWith())
    expect(status).toBe(200)
    const places = [
      'Any of these? A tingle or a shock.',
      'No sign at all',
      'Yes',
      'Getting it ready Plug out',
      'Repairs',
      'Otherwise use the guided flow',
      'in 100 more',
      'estimates',
      'Rulebook in use since 2 Mar 2026',
    ].map((text) => words.indexOf(text))
    expect(places).not.toContain(-1)
    expect(places).toEqual([...places].sort((a, b) => a - b))
    // common practice, no source: what comes and goes is the cord until the cord is ruled out, else the brushes
    expect(words).toContain('Fit a new pair of brushes')
    expect(words).toContain('wait five minutes')
  })

  it('has its cost beside the full plan’s in counts, minutes and money, and no decimals but of money', async () => {
    const { words } = await cardWith(figuresWith())
    expect(words).toContain(
      'By this card about 41 a tool and about 23 minutes of hands; by the guided flow alone about 40 and about 21 minutes: about 3 in 100 more',
    )
    expect(words).toContain('1 in 100 cheaper, give or take 5')
    expect(words).toContain('Of 100 tools 40 come to an end on this card')
    expect(words).not.toContain('more than a card should lose')
    expect(words.replace(/http:\S+/, '')).not.toMatch(/%|\d\.\d(?!\d)/)
  })

  it('says in plain words where it loses more than 5 in 100', async () => {
    const { words } = await cardWith(figuresWith({ lost: { mean: 3.3, se: 0.4 } }))
    expect(words).toContain('about 8 in 100 more')
    expect(words).toContain('That is more than a card should lose, 5 in 100.')
  })

  it('says when its figures are of other rules, or of another card', async () => {
    expect((await cardWith(figuresWith())).words).not.toContain('figures are old')
    expect((await cardWith(figuresWith({}, 'a'.repeat(64)))).words).toContain('figures are old')
    expect((await cardWith(figuresWith({ paper: 1 }))).words).toContain('figures are old')
  })

  it('that was not measured says so, with what the kind’s others add', async () => {
    const { words } = await cardWith(figuresWith(), `/practice/cards/${kind}/hot-near-head`)
    expect(words).toContain('What this card adds was not measured')
    expect(words).toContain('add 3 to 3 in 100')
    expect((await cardWith(null)).words).toContain('What this card adds was not measured')
  })
})

it.each([
  ['/practice/cards?kind=steam-engine', 'cards for a kind of this name'],
  ['/practice/cards/steam-engine/cuts-in-and-out', 'cards for a kind of this name'],
  [`/practice/cards/${kind}/sings-opera`, 'a card for a complaint of this name'],
  // told by a check alone, so nobody comes in with it
  [`/practice/cards/${kind}/brush-length`, 'a card for a complaint of this name'],
  [`/practice/cards/${kind}/tingle-or-shock`, 'a card for a danger sign'],
  // no question of the danger step, but a stop all the same
  [`/practice/cards/${kind}/scorch-marks`, 'a card for a danger sign'],
])('%s: 404, in words', async (at, words) => {
  const me = await cardWith(null, at)
  expect(me.status).toBe(404)
  expect(me.words).toContain(words)
})
