/** Who practises: choosing oneself, coming in new, a lesson carried along; and names that cannot be. */
import request from 'supertest'
import { describe, expect, it } from 'vitest'
import { OPENED } from '../api/bench.js'
import { kind, knowledge, practiceShops } from './practice-shop.js'
import type { Visitor } from './visitor.js'

const { opened, withLearner } = practiceShops()
const confusion = knowledge.confusions[0]!

describe('the door', () => {
  it('of an empty shop takes the first name and makes a class of its own', async () => {
    const { me, register } = await opened()
    await me.open('/practice')
    expect(me.status).toBe(200)
    expect(me.heading).toBe('Who practises?')
    expect(me.words).toContain('You come into the class “This shop”.')
    for (const way of ['lessons', 'cards', 'classes']) expect(me.html).toContain(`href="/practice/${way}"`)
    await me.post('/practice/people', { name: '  Ana   Maria ', class: '' })
    expect(me.status).toBe(200)
    expect(me.heading).toMatch(/^Ana Maria/)
    expect((await register.classes()).map(({ name }) => name)).toEqual(['This shop'])
    await me.post('/practice/people', { name: 'Bo', class: '' })
    expect((await register.learners()).map(({ name }) => name)).toEqual(['Ana Maria', 'Bo'])
    await me.open('/practice')
    expect(me.html).toMatch(/<a class="name-tape" href="\/practice\/people\/[a-z0-9-]+">Ana Maria<\/a>/)
  })

  it('lets ten newcomers in at once, into one class', async () => {
    const { app, register } = await opened()
    const answers = await Promise.all(
      Array.from({ length: 10 }, (_, k) =>
        request(app)
          .post('/practice/people')
          .type('form')
          .send({ name: `Learner ${k}`, class: '' }),
      ),
    )
    expect(answers.map(({ status }) => status)).toEqual(Array.from({ length: 10 }, () => 303))
    expect(await register.classes()).toHaveLength(1)
    expect(await register.learners()).toHaveLength(10)
  })

  it('carries a lesson on: to the one who is chosen, and with a newcomer', async () => {
    const { me, register, ofClass } = await withLearner()
    const lesson = `confusions/${confusion.id}`
    await me.open(`/practice?lesson=${lesson}&kind=${kind}`)
    expect(me.words).toContain(confusion.name)
    expect(me.html).toMatch(
      new RegExp(
        `action="/practice/exercises">\\s*<input type="hidden" name="learner" value="[a-z0-9-]+" />\\s*<input type="hidden" name="lesson" value="${lesson}" />\\s*<input type="hidden" name="kind" value="${kind}" />`,
      ),
    )
    await me.post('/practice/people', { name: 'Bo', class: ofClass.id, lesson, kind })
    const bo = (await register.learners(ofClass.id)).find(({ name }) => name === 'Bo')!
    expect(me.at).toBe(`/practice/people/${bo.id}?${new URLSearchParams({ lesson, kind }).toString()}`)
    expect(me.words).toContain(`The exercise after “${confusion.name}”`)
    expect(me.html.match(/class="go"/g)).toHaveLength(1)
  })

  it('drops a lesson that there is not', async () => {
    const { me } = await withLearner()
    await me.open('/practice?lesson=confusions/no-such-thing&kind=<b>')
    expect(me.status).toBe(200)
    expect(me.html).not.toContain('no-such-thing')
    await me.open('/practice?lesson=a&lesson=b')
    expect(me.status).toBe(200)
  })
})

describe('a name that cannot be', () => {
  const refused = async (
    bench: Awaited<ReturnType<typeof withLearner>>,
    fields: { name: string; class?: string },
  ): Promise<Visitor> => {
    const before = await bench.register.learners()
    await bench.me.post('/practice/people', { class: bench.ofClass.id, ...fields })
    expect(bench.me.status).toBe(422)
    expect(bench.me.title).toMatch(/^Error: /)
    expect(await bench.register.learners()).toEqual(before)
    return bench.me
  }

  it.each([
    ['empty', '', 'Say by which name you go'],
    ['spaces', '   ', 'Say by which name you go'],
    ['a space without width', '\u200b', 'Say by which name you go'],
    ['of 200 letters', 'a'.repeat(200), 'Use a shorter name, of at most 80 letters'],
    ['there already', 'Ana', 'has somebody called'],
    ['there already in capitals and spaces', ' ANA ', 'has somebody called'],
  ])('%s', async (_, name, message) => {
    const me = await refused(await withLearner(), { name })
    expect(me.html).toContain(message)
    expect(me.html).toMatch(/href="#name"[\s\S]*id="name"/)
    expect(me.field('name')).toBe(name.trim())
  })

  it('is given back as it was typed, harmless', async () => {
    const me = await refused(await withLearner(), { name: '"><b>x', class: 'no-such-class' })
    expect(me.html).toContain('value="&#34;&gt;&lt;b&gt;x"')
    expect(me.words).toContain('Choose the class that you are in')
  })

  it('in the other class is another person', async () => {
    const bench = await withLearner()
    const other = await bench.register.addClass({ name: `Thursday beside ${bench.ofClass.name}`, at: OPENED })
    await refused(bench, { name: 'Bo', class: '' })
    expect(bench.me.html).toMatch(/href="#class"[\s\S]*id="class"/)
    expect(bench.me.field('name')).toBe('Bo')
    await bench.me.post('/practice/people', { name: 'Ana', class: other.id })
    expect(bench.me.status).toBe(200)
    expect(await bench.register.learners(other.id)).toHaveLength(1)
  })

  it('in more than one script is a name like any other', async () => {
    const { me, register, ofClass } = await withLearner()
    await me.post('/practice/people', { name: 'Zoë 李', class: ofClass.id })
    expect((await register.learners(ofClass.id)).map(({ name }) => name)).toContain('Zoë 李')
  })
})
