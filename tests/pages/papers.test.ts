/** The slip, the retire list and the return, page by page, without a browser. */
import type { Express } from 'express'
import { beforeEach, describe, expect, it } from 'vitest'
import type { CaseEvent } from '../../shared/case.js'
import { bookOf } from '../../shared/book-of-kind.js'
import type { CaseStore } from '../../server/cases/case-store.js'
import { benchWith, OPENED } from '../api/bench.js'
import { Visitor } from './visitor.js'
import { knowledge } from '../the-rulebook.js'

const kinds = knowledge.kinds.map(({ id }) => id)
const withPack = kinds.filter((kind) =>
  bookOf(knowledge, kind).kinds[0]?.parts.some(({ id }) => id === 'battery'),
)
const withCord = kinds.filter((kind) => !withPack.includes(kind))

let app: Express
let cases: CaseStore
let wait: (minutes: number) => void
let me: Visitor
beforeEach(async () => {
  ;({ app, cases, wait } = await benchWith({ knowledge }))
  me = new Visitor(app)
})

/** A case with the danger signs named told, all others not there. @returns its address */
async function begun(
  kind: string,
  signs: readonly string[] = [],
  more: readonly CaseEvent[] = [],
): Promise<string> {
  const danger = bookOf(knowledge, kind).steps.find(({ form }) => form === 'danger')!
  const { id } = await cases.begin({ kind, tool: 'Chair 2', at: OPENED })
  const answers = Object.fromEntries(
    danger.questions.map((asked) => [asked.id, signs.includes(asked.id) ? 'yes' : 'no'] as const),
  )
  await cases.append(
    id,
    [
      { type: 'answered', step: 'complaint', answers: {}, when: 'now', words: 'Weak since Monday' },
      { type: 'answered', step: danger.id, answers, when: 'now' },
      ...more,
    ],
    OPENED,
  )
  return `/cases/${id}`
}
const boxed: CaseEvent = { type: 'finished', state: 'boxed-for-service' }

describe('the slip', () => {
  it.each(kinds)(
    '%s: complaint, danger, disinfection, limit, warranty and packing are on it',
    async (kind) => {
      await me.open(`${await begun(kind)}/slip`)
      expect(me.status).toBe(200)
      for (const words of [
        '“Weak since Monday”',
        'Not disinfected.',
        'danger signs',
        'call before any work',
        'not opened here',
        'Card over the teeth',
      ])
        expect(me.words).toContain(words)
    },
  )
  it('has the plate of the tool, where it is known', async () => {
    const { app: shop, cases: kept, tools } = await benchWith({ knowledge })
    const details = { volts: '220-240', hertz: '50', watts: 45 }
    const [tool] = await tools.add([{ name: 'Chair 2', kind: kinds[0]!, place: 'in-use', details }], OPENED)
    const { id } = await kept.begin({ kind: kinds[0]!, tool: 'Chair 2', at: OPENED })
    const there = new Visitor(shop)
    await there.open(`/cases/${id}/slip`)
    expect(there.words).not.toContain('Plate')
    await tools.tie(id, tool!.id)
    await there.open(`/cases/${id}/slip`)
    expect(there.words).toContain('220-240 V, 50 Hz, 45 W')
  })
  it('takes a limit in the shop’s currency, shows it, and takes it back', async () => {
    const home = await begun(kinds[0]!)
    await me.open(`${home}/slip`)
    await me.send(`${home}/quote-limit`, { limit: '45,00' })
    expect(me.words).toContain('Do not go on above €45 without a call.')
    await me.send(`${home}/quote-limit`, { limit: '12.5' })
    expect(me.words).toContain('above €12.50')
    await me.send(`${home}/quote-limit`, { limit: '' })
    expect(me.words).toContain('No limit was said')
  })
  it.each(['-5', 'lots', '1.234', '1,000,000', '99999999999'])(
    'refuses a limit of %s and keeps it in its field',
    async (limit) => {
      const home = await begun(kinds[0]!)
      await me.open(`${home}/slip`)
      await me.send(`${home}/quote-limit`, { limit })
      expect(me.status).toBe(422)
      expect(me.title).toMatch(/^Error: /)
      expect(me.field('limit')).toBe(limit)
      expect(me.html).toContain('href="#limit"')
    },
  )
  it('is disinfected and limited in the box too, but not once the tool runs again', async () => {
    const home = await begun(kinds[0]!, [], [boxed])
    await me.open(`${home}/slip`)
    await me.send(`${home}/slip`, { disinfected: 'yes' })
    expect(me.words).not.toContain('Not disinfected.')
    const runs = await begun(kinds[0]!, [], [{ type: 'finished', state: 'running-again' }])
    await me.post(`${runs}/quote-limit`, { seen: '3', limit: '45' })
    expect(me.status).toBe(409)
  })
  it('says a danger that stands, and by whom one was lifted', async () => {
    const [kind, sign] = [withCord[0]!, 'cord-damaged']
    const home = await begun(kind, [sign])
    const { name } = knowledge.stops.find(({ id }) => id === sign)!
    await me.open(`${home}/slip`)
    expect(me.words).toContain(`${name}.`)
    await me.send(`${home}/stops/${sign}/lift`, { by: 'Ines, who fitted a new one' })
    await me.open(`${home}/slip`)
    expect(me.words).toContain(`Lifted: ${name}, by Ines, who fitted a new one.`)
  })
  it('tells a reading with its unit and how it was taken', async () => {
    for (const kind of kinds) {
      const step = bookOf(knowledge, kind).steps.find(({ questions }) =>
        questions.some((it) => it.unit === 'min'),
      )
      const asked = step?.questions.find((it) => it.unit === 'min')
      if (!step || !asked) continue
      const home = await begun(
        kind,
        [],
        [{ type: 'answered', step: step.id, answers: { [asked.id]: 7 }, when: 'now' }],
      )
      await me.open(`${home}/slip`)
      expect(me.words).toContain(
        `${asked.statement.replaceAll("'", '’')}: 7 min (${step.title.replaceAll("'", '’')})`,
      )
    }
  })
  // Common practice and the rules of post and carriers for lithium cells: a damaged or defective one is not sent.
  it.each(withPack)(
    '%s: a hurt battery goes by no post, and a sound one is told to the carrier',
    async (kind) => {
      await me.open(`${await begun(kind)}/slip`)
      expect(me.words).not.toContain('By no post')
      expect(me.words).toContain('the carrier told of it')
      await me.open(`${await begun(kind, ['pack-swollen-or-hot'])}/slip`)
      expect(me.words).toContain('By no post')
      expect(me.words).toContain('hazardous-waste point')
      expect(me.words).not.toContain('the carrier told of it')
    },
  )
  it.each(withCord)('%s: the cord goes in a loose loop, and nothing is said of a battery', async (kind) => {
    await me.open(`${await begun(kind)}/slip`)
    expect(me.words).toContain('loose loop')
    expect(me.words).not.toMatch(/\bpack\b/)
  })
})

describe('the retire list', () => {
  // Common practice, no source: a plug with bare ends behind it is live as soon as somebody puts it into a wall.
  it.each(withCord)(
    '%s: plug out, then cord off the body, then the plug off the cord and destroyed',
    async (kind) => {
      await me.open(`${await begun(kind)}/retire`)
      const at = [
        'out of the wall',
        'cut through close to the body',
        'bare ends behind it kills',
        'cut off the cord',
        'destroyed',
      ].map((words) => me.words.indexOf(words))
      expect(at.every((place) => place > 0)).toBe(true)
      expect(at).toEqual([...at].sort((a, b) => a - b))
    },
  )
  it.each(withPack)(
    '%s: a battery that comes out is taped, a soldered one stays in, a hurt one goes outdoors',
    async (kind) => {
      const pack = (answer: 'yes' | 'no'): CaseEvent[] => [
        { type: 'answered', step: 'complaint', answers: { 'pack-comes-out': answer }, when: 'now' },
      ]
      await me.open(`${await begun(kind, [], pack('yes'))}/retire`)
      expect(me.words).toContain('tape over one end')
      expect(me.words).not.toContain('stays in')
      await me.open(`${await begun(kind, [], pack('no'))}/retire`)
      expect(me.words).not.toContain('tape over one end')
      expect(me.words).toContain('stays in')
      await me.open(`${await begun(kind, ['pack-swollen-or-hot'])}/retire`)
      expect(me.words).toContain('outdoors')
      expect(me.words).toContain('never by post')
      expect(me.words).not.toMatch(/tape over one end|stays in/)
    },
  )
  it.each(kinds)('%s: blades as sharps, disinfected, recycled, struck, parts worth keeping', async (kind) => {
    await me.open(`${await begun(kind)}/retire`)
    for (const words of ['sharps', 'disinfected', 'electrical waste', 'Taken off', 'Worth keeping if sound'])
      expect(me.words).toContain(words)
  })
  it('is offered where a tool is set aside, and nowhere else', async () => {
    for (const [state, offered] of [
      ['set-aside', true],
      ['boxed-for-service', false],
      ['running-again', false],
    ] as const) {
      const home = await begun(kinds[0]!, [], [{ type: 'finished', state }])
      await me.open(home)
      expect(me.html.includes(`${home}/retire`)).toBe(offered)
    }
  })
})

describe('it is back', () => {
  const cause = () => bookOf(knowledge, kinds[0]!).causes[0]!
  const good = {
    fee: '48.50',
    carriage: '9',
    left: '2026-03-02',
    back: '2026-03-10',
    mended: 'yes',
    state: 'running-again',
  }
  async function away(signs: readonly string[] = []): Promise<string> {
    const home = await begun(kinds[0]!, signs, [boxed])
    wait(8 * 24 * 60)
    await me.open(`${home}/return`)
    return home
  }

  it('keeps fee, days and the cause on the case, which runs again', async () => {
    const home = await away()
    await me.send(`${home}/return`, { ...good, cause: cause().id })
    expect(me.at).toBe(home)
    for (const words of [
      'Running again',
      '€48.50',
      '€9',
      '8 days',
      cause().name.replaceAll("'", '’'),
      'It was:',
    ])
      expect(me.words).toContain(words)
    await me.open('/')
    expect(me.words).toContain(`It was: ${cause().name.replaceAll("'", '’')}, says the service`)
  })
  it('takes words for what is none of our causes, and then confirms none', async () => {
    const home = await away()
    await me.send(`${home}/return`, { ...good, found: 'A coin in the fan', mended: 'no', state: 'set-aside' })
    expect(me.words).toContain('“A coin in the fan”')
    expect(me.words).toContain('Fault not recorded')
    expect(me.words).toContain('Set aside')
  })
  it('finds causes by words that are not among the likeliest, keeping what was typed', async () => {
    const home = await away()
    const offered = me.html
    const others = bookOf(knowledge, kinds[0]!).causes.filter(({ id }) => !offered.includes(`value="${id}"`))
    expect(others.length).toBeGreaterThan(5)
    for (const { name, id } of others) {
      await me.open(`${home}/return?fee=12&found=${encodeURIComponent(name)}`)
      expect(me.field('fee')).toBe('12')
      expect(me.html).toContain(`name="cause" value="${id}"`)
    }
    await me.open(`${home}/return?found=xqzzy`)
    expect(me.words).toContain('No fault of the rulebook fits')
  })
  it('is corrected, and unsaid where it is still away', async () => {
    const home = await away()
    await me.send(`${home}/return`, good)
    await me.open(`${home}/return`)
    expect(me.field('fee')).toBe('48.50')
    await me.send(`${home}/return`, { ...good, fee: '52' })
    expect(me.words).toContain('€52')
    expect(me.words).not.toContain('€48.50')
    await me.send(`${home}/still-away`)
    expect(me.words).toContain('Boxed for service')
    expect(me.words).not.toContain('€52')
  })
  it.each<[string, Record<string, string>, string]>([
    ['no fee', { fee: '' }, 'fee'],
    ['a fee in words', { fee: 'a lot' }, 'fee'],
    ['less than nothing', { carriage: '-3' }, 'carriage'],
    ['a day that is none', { left: '2026-02-30' }, 'left'],
    ['no day', { back: 'yesterday' }, 'back'],
    ['a day to come', { back: '2026-12-24' }, 'back'],
    ['back before it left', { left: '2026-03-09', back: '2026-03-03' }, 'back'],
    ['a cause of nowhere', { cause: 'gremlins' }, 'cause'],
    ['a story', { found: 'x'.repeat(301) }, 'found'],
    ['nobody says whether fixed', { mended: '' }, 'mended'],
    ['a state that is none', { state: 'on-the-bench' }, 'state'],
  ])('%s: the page again, the slip tied to its field, nothing stored', async (_, slip, field) => {
    const home = await away()
    await me.send(`${home}/return`, { ...good, ...slip })
    expect(me.status).toBe(422)
    expect(me.html).toContain(`href="#${field}"`)
    expect(me.html).toMatch(new RegExp(`id="${field}"`))
    if (field !== 'carriage') expect(me.field('carriage')).toBe('9')
    await me.open(home)
    expect(me.words).toContain('Boxed for service')
  })
  it('with a danger on it, does not run again before somebody did what lifts it', async () => {
    const sign = 'smoke-or-burning-smell'
    const home = await away([sign])
    await me.send(`${home}/return`, good)
    expect(me.status).toBe(422)
    expect(me.html).toContain(`href="#by-${sign}"`)
    await me.send(`${home}/return`, { ...good, [`by-${sign}`]: 'the service, test passed' })
    expect(me.words).toContain('Running again')
    const aside = await away([sign])
    await me.send(`${aside}/return`, { ...good, mended: 'no', state: 'set-aside' })
    expect(me.words).toContain('Set aside')
  })
  it('is for what is away: on the bench it leads back to the work, and its form is refused', async () => {
    const home = await begun(kinds[0]!)
    await me.open(`${home}/return`)
    expect(me.at).toBe(home)
    await me.post(`${home}/return`, { seen: '2', ...good, back: '2026-03-02' })
    expect(me.status).toBe(409)
    await me.post(`${home}/still-away`, { seen: '2' })
    expect(me.status).toBe(409)
  })
  it('shows hostile words as they were typed', async () => {
    const home = await away()
    await me.send(`${home}/return`, { ...good, found: '<script>alert(1)</script>' })
    expect(me.html).not.toContain('<script>alert')
    expect(me.html).toContain('&lt;script&gt;alert(1)')
  })
})
