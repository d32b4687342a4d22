/** Somebody at the bench with a browser that has no scripts: opens pages, fills in forms, follows redirects. */
import type { Express } from 'express'
import request from 'supertest'
import type { Response } from 'supertest'

export type Fields = Readonly<Record<string, string | readonly string[]>>

export class Visitor {
  status = 0
  html = ''
  at = '/'

  constructor(private readonly app: Express) {}

  async open(path: string): Promise<this> {
    return this.arrive(await request(this.app).get(path), path)
  }

  /** Send a form of the page that is open, with the hidden fields that it carries. */
  async send(path: string, fields: Fields = {}): Promise<this> {
    const seen = /name="seen" value="(\d+)"/.exec(this.html)?.[1]
    return this.post(path, { ...(seen !== undefined && { seen }), ...fields })
  }

  /** Send just these fields, whatever page is open. */
  async post(path: string, fields: Fields): Promise<this> {
    const body = new URLSearchParams()
    for (const [name, value] of Object.entries(fields))
      for (const text of [value].flat()) body.append(name, text)
    return this.arrive(await request(this.app).post(path).type('form').send(body.toString()), path)
  }

  /** Put a tool on the bench and tell a complaint. @returns the address of the case */
  async begin(complaint: readonly string[], tool = 'Chair 2', kind = 'universal-motor'): Promise<string> {
    await this.open('/')
    await this.send('/cases', { kind, tool })
    const home = this.at.replace('/complaint', '')
    await this.send(`${home}/complaint`, ticked(complaint))
    return home
  }

  /** Taps each sign of `signs` (yes, or cant-tell for "not sure") as long as the danger screen is open, then "none". */
  async lookForDanger(
    home: string,
    signs: Readonly<Record<string, 'yes' | 'cant-tell'>> = {},
  ): Promise<this> {
    for (const [sign, said] of Object.entries(signs))
      await this.send(`${home}/danger`, { [said === 'yes' ? 'yes' : 'unsure']: sign })
    return this.dangerSigns.length === 0 ? this : this.send(`${home}/danger`, { rest: 'no' })
  }

  /** The danger signs that the page asks, in order; empty on any other page. */
  get dangerSigns(): readonly string[] {
    return [...this.html.matchAll(/name="yes" value="([a-z0-9-]+)"/g)].map(([, id]) => id!)
  }

  /** Answer the step that is open: `yes` to these, `rest` to all others. What needs an instrument cannot be told. */
  async answerStep(
    home: string,
    yes: readonly string[] = [],
    rest: 'no' | 'cant-tell' = 'no',
  ): Promise<this> {
    const asked = this.field('asked') ?? ''
    const so = asked.split(',').filter((id) => yes.includes(id))
    return this.send(`${home}/answers`, { step: this.field('step') ?? '', asked, rest, ...ticked(so) })
  }

  /** Wants no further look; these are ticked on the page that is open. */
  lookedEnough(home: string, yes: readonly string[] = []): Promise<this> {
    return this.send(`${home}/looked-enough`, { step: this.field('step') ?? '', ...ticked(yes) })
  }

  /** Where an ending is offered and not forced, asks to look further. @returns whether it could */
  async lookFurther(): Promise<boolean> {
    const action = /class="answer answer-soft" formaction="([^"]+)"/.exec(this.html)?.[1]
    if (action === undefined) return false
    await this.send(action)
    return true
  }

  /** The fix that is shown, on its first screen or where it asks for the outcome. */
  get fix(): string | undefined {
    const first = /href="[^"]*\?at=1"/.test(this.html) ? this.field('id') : undefined
    return first ?? this.field('fix')
  }

  /** The words of the page without its tags, spaces folded. */
  get words(): string {
    if (this.#read.html !== this.html) this.#read = { html: this.html, words: this.#withoutTags() }
    return this.#read.words
  }

  #read = { html: '', words: '' }
  #withoutTags(): string {
    return this.html
      .replace(/<svg[\s\S]*?<\/svg>/g, ' ')
      .replace(/<[^>]+>/g, ' ')
      .replace(/&#39;/g, '’')
      .replace(/\s+/g, ' ')
  }

  get heading(): string {
    return /<h1[^>]*>([\s\S]*?)<\/h1>/.exec(this.html)?.[1]?.trim() ?? ''
  }

  get title(): string {
    return /<title>([^<]*)<\/title>/.exec(this.html)?.[1] ?? ''
  }

  /** The value of the first field of this name. */
  field(name: string): string | undefined {
    return new RegExp(`name="${name}" value="([^"]*)"`).exec(this.html)?.[1]
  }

  private async arrive(response: Response, path: string): Promise<this> {
    // 303: whatever was sent, what follows is a plain GET (RFC 9110 §15.4.4).
    if (response.status === 303) return this.open(response.headers['location'] as string)
    this.status = response.status
    this.html = response.text
    this.at = path
    return this
  }
}

const ticked = (questions: readonly string[]): Fields =>
  Object.fromEntries(questions.map((question) => [`q-${question}`, 'yes']))
