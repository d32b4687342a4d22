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
  async begin(complaint: readonly string[], tool = 'Chair 2'): Promise<string> {
    await this.open('/')
    await this.send('/cases', { kind: 'universal-motor', tool })
    const home = this.at.replace('/complaint', '')
    await this.send(`${home}/complaint`, ticked(complaint))
    return home
  }

  /** Answer the danger screen: no to all but `signs`. */
  async lookForDanger(home: string, signs: Readonly<Record<string, string>> = {}): Promise<this> {
    const asked = [...this.html.matchAll(/type="radio" name="q-([a-z-]+)"/g)].map((match) => match[1] ?? '')
    const answers = Object.fromEntries(asked.map((id) => [`q-${id}`, signs[id] ?? 'no']))
    return this.send(`${home}/danger`, answers)
  }

  /** The words of the page without its tags, spaces folded. */
  get words(): string {
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

export const ticked = (questions: readonly string[]): Fields =>
  Object.fromEntries(questions.map((question) => [`q-${question}`, 'yes']))
