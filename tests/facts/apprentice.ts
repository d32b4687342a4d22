/** An apprentice who follows the pages to the fix: ticks what one single fault would show, and nothing else. */
import type { Knowledge } from '../../shared/knowledge.js'
import type { Bench } from '../api/bench.js'
import { Visitor } from '../pages/visitor.js'

/** More screens than this and the flow has lost its way. */
const mostScreens = 25

export class Apprentice {
  readonly visitor: Visitor
  home = ''
  /** steps walked through, in order */
  readonly walked: string[] = []
  /** the words of each step page, by step */
  readonly shown = new Map<string, string>()

  constructor(
    bench: Bench,
    private readonly knowledge: Knowledge,
    private readonly fault: string,
    /** steps that cannot be done at this bench */
    private readonly cannot: readonly string[] = [],
  ) {
    this.visitor = new Visitor(bench.app)
  }

  /** Goes on until a fix is on the page, or the case ends without one. @returns the fix, '' when it ends */
  async toTheFix(complaint: readonly string[], told: Readonly<Record<string, string>> = {}): Promise<string> {
    this.home = await this.visitor.begin(complaint)
    await this.visitor.lookForDanger(this.home)
    for (const [question, answer] of Object.entries(told)) {
      await this.visitor.open(`${this.home}/answers/${question}`)
      const number = /^[\d.]+$/.test(answer)
      await this.visitor.send(`${this.home}/answers/${question}`, {
        [`${number ? 'n' : 'q'}-${question}`]: answer,
      })
    }
    await this.visitor.open(this.home)
    for (let screen = 0; screen < mostScreens; screen++) {
      const { fix } = this.visitor
      if (fix !== undefined) return fix
      if (await this.visitor.lookFurther()) continue
      const step = this.visitor.field('step')
      if (step === undefined) return ''
      this.walked.push(step)
      this.shown.set(step, this.visitor.words)
      if (this.cannot.includes(step)) await this.visitor.send(`${this.home}/cannot-do`, { id: step })
      else await this.answer()
    }
    throw new Error(`no fix after ${mostScreens} screens: ${this.walked.join(', ')}`)
  }

  /** Says that the fix on the page cured it, and so comes to what keeps it well. */
  async cured(fix: string): Promise<string> {
    await this.visitor.send(`${this.home}/tried`, { fix, outcome: 'cured' })
    return this.visitor.words
  }

  private async answer(): Promise<void> {
    const asked = (this.visitor.field('asked') ?? '').split(',')
    await this.visitor.answerStep(
      this.home,
      asked.filter((question) => this.shows(question)),
    )
  }

  private shows(question: string): boolean {
    const strength = this.knowledge.findings.find(({ id }) => id === question)?.strengths[this.fault]
    return typeof strength === 'number' && strength >= 0.5
  }
}
