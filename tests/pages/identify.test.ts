/** Which kind is it? The way there without scripts: answers ride in the address, and each can be changed. */
import type { Express } from 'express'
import { beforeAll, describe, expect, it } from 'vitest'
import { benchWith } from '../api/bench.js'
import { Visitor } from './visitor.js'
import { knowledge } from '../the-rulebook.js'

let app: Express
let me: Visitor

beforeAll(async () => {
  app = (await benchWith({ knowledge })).app
})

/** The address that a button of the open page leads to, as a browser makes it: hidden fields first, then the button. */
function pressed(html: string, answer: string): string {
  const form = /<form method="get" action="([^"]*)"[\s\S]*?<\/form>/.exec(html)!
  const hidden = [...form[0].matchAll(/type="hidden" name="([^"]+)" value="([^"]+)"/g)]
  const button = new RegExp(`<button[^>]*name="([^"]+)" value="${answer}"`).exec(form[0])!
  const fields = [...hidden.map(([, name, value]) => [name!, value!]), [button[1]!, answer]] as [
    string,
    string,
  ][]
  return `${form[1]}?${new URLSearchParams(fields).toString()}`
}
const asked = (html: string): string | undefined =>
  /<button class="answer" name="([^"]+)" value="yes"/.exec(html)?.[1]

/** Answers as somebody who holds a usual tool of the kind, until there is nothing more to answer. */
async function goThrough(kind: string, from = '/identify'): Promise<Visitor> {
  me = await new Visitor(app).open(from)
  for (let look = 0; look <= knowledge.signs.length && asked(me.html); look++) {
    const sign = knowledge.signs.find(({ id }) => `s-${id}` === asked(me.html))
    await me.open(pressed(me.html, sign && sign.kinds[kind]! > 0.5 ? 'yes' : 'no'))
  }
  return me
}

it('is offered where the kind is chosen', async () => {
  me = await new Visitor(app).open('/new?on=cord')
  const [, href] = /href="(\/identify[^"]*)"/.exec(me.html)!
  // what it runs on was said by the tap that led here
  await me.open(href!)
  expect(asked(me.html)).not.toBe('s-has-battery')
  expect(me.words).toContain(`${knowledge.signs.find(({ id }) => id === 'has-battery')!.statement}: No`)
})

describe('the way', () => {
  it.each(knowledge.kinds)('leads to $id, shows how to know it, and on to its complaint', async (kind) => {
    await goThrough(kind.id)
    expect(me.heading).toBe(kind.plainName)
    for (const tell of kind.tell) expect(me.words).toContain(tell.replaceAll("'", '’'))
    expect(me.field('kind')).toBe(kind.id)
    await me.send('/cases', { kind: kind.id, tool: 'Chair 5' })
    expect(me.at).toMatch(/\/cases\/\w+\/complaint/)
    await me.open(me.at.replace('/complaint', '/tool'))
    expect(me.html).toMatch(new RegExp(`value="${kind.id}" selected`))
  })

  it('says first that it stays off, and asks whether it may hurt before a look that switches it on', async () => {
    const running = new Set(knowledge.signs.filter((sign) => sign.needsPower).map(({ id }) => `s-${id}`))
    me = await new Visitor(app).open('/identify')
    let before = 0
    for (; before < knowledge.signs.length && asked(me.html) !== 'hurt'; before++) {
      expect(me.words).toContain('It is not switched on to answer this')
      expect(running).not.toContain(asked(me.html))
      await me.open(pressed(me.html, 'cant-tell'))
    }
    expect(before).toBeGreaterThan(0)
    await me.open(pressed(me.html, 'no'))
    expect(running).toContain(asked(me.html))
  })

  it.each(['yes', 'cant-tell'])('never has a tool run that may hurt (%s)', async (hurt) => {
    const running = new Set(knowledge.signs.filter((sign) => sign.needsPower).map(({ id }) => `s-${id}`))
    expect(running.size).toBeGreaterThan(0)
    me = await new Visitor(app).open(`/identify?hurt=${hurt}`)
    for (let look = 0; look < knowledge.signs.length && asked(me.html); look++) {
      expect(me.words).toContain('Leave it switched off')
      expect(running).not.toContain(asked(me.html))
      await me.open(pressed(me.html, 'cant-tell'))
    }
    expect(asked(me.html)).toBeUndefined()
    expect(me.words).toContain('Leave it switched off')
    for (const sign of running) expect(me.html).not.toContain(`change=${sign.slice(2)}`)
  })

  it('says under each question that needs a running tool what to mind', async () => {
    for (const sign of knowledge.signs.filter(({ needsPower }) => needsPower)) {
      me = await new Visitor(app).open(`/identify?hurt=no&s-${sign.id}=no&change=${sign.id}`)
      expect(me.heading).toBe(sign.text.replaceAll("'", '&#39;'))
      expect(me.words).toContain(sign.caution!.replaceAll("'", '’'))
    }
  })

  it('lets any answer be changed and keeps the others', async () => {
    await goThrough(knowledge.kinds[0]!.id)
    const changes = [...me.html.matchAll(/href="([^"]*change=[^"]*)"/g)].map(([, href]) =>
      href!.replaceAll('&amp;', '&'),
    )
    expect(changes.length).toBeGreaterThan(2)
    const [first] = changes.filter((href) => !href.endsWith('change=hurt'))
    await me.open(first!)
    const name = asked(me.html)!
    expect(first).toContain(`change=${name.slice(2)}`)
    const others = new URLSearchParams(first!.split('?')[1])
    others.delete('change')
    others.set(name, 'cant-tell')
    const then = new URLSearchParams(pressed(me.html, 'cant-tell').split('?')[1])
    expect(Object.fromEntries(then)).toEqual(Object.fromEntries(others))
  })

  it('shows the kinds that remain side by side, and what would tell them apart', async () => {
    me = await new Visitor(app).open('/identify?hurt=no')
    for (let look = 0; look < knowledge.signs.length && asked(me.html); look++)
      await me.open(pressed(me.html, 'cant-tell'))
    expect(me.heading).toBe('Too little to go by yet')
    expect(me.words).toContain('What would tell them apart')
    for (const kind of knowledge.kinds.filter(({ usual }) => usual! > 100))
      expect(me.html).toContain(`value="${kind.id}"`)
  })

  it('says so when nothing fits, and what to do', async () => {
    const all = knowledge.signs.map(({ id }) => `s-${id}=yes`).join('&')
    me = await new Visitor(app).open(`/identify?hurt=no&${all}`)
    expect(me.heading).toBe('It fits none of the kinds here')
    expect(me.words).toContain('one slip is enough')
    expect(me.html).not.toContain('action="/cases"')
  })
})

describe('an address that is not quite right', () => {
  const good = `s-${knowledge.signs[0]!.id}`
  it.each([
    [`hurt=no&${good}=perhaps`, 'which is no answer'],
    [`hurt=no&${good}=no&s-has-wings=yes`, 'which is not asked here'],
    [`hurt=maybe&${good}=no`, 'which is no answer'],
    [`hurt=no&${good}=no&s-${'x'.repeat(500)}=yes`, 'which is not asked here'],
  ])('%s: the slip is told of and left out, the rest stands', async (query, words) => {
    me = await new Visitor(app).open(`/identify?${query}`)
    expect(me.status).toBe(422)
    expect(me.words).toContain(words)
    expect(me.title).toMatch(/^Error: /)
    expect(me.words).not.toContain('x'.repeat(50))
    if (query.includes(`${good}=no`)) expect(me.words).toContain(`${knowledge.signs[0]!.statement}: No`)
  })

  it('cannot bring in markup', async () => {
    me = await new Visitor(app).open(
      `/identify?hurt=${encodeURIComponent('"><script>x</script>')}&change=%3Cb%3E`,
    )
    expect(me.html).not.toContain('<script>x')
  })
})
