import type { Frame } from './frame.js'
import { plainFrame } from './frame.js'

/** Something went wrong: what, and what to do. Never a stack, a path or a name out of the program. */
export interface ProblemPage {
  readonly frame: Frame
  readonly heading: string
  readonly text: string
  readonly advice: string
}

const headings = new Map([
  [400, 'That could not be read'],
  [403, 'That did not come from this page'],
  [404, 'Not on this bench'],
  [405, 'That cannot be done here'],
  [409, 'This case has moved on'],
  [413, 'That was too much at once'],
  [415, 'That could not be read'],
  [422, 'That does not fit'],
])

const advices = new Map([
  [400, 'Go back, load the page again and send it once more.'],
  [403, 'Open the page from this bench itself and send it again.'],
  [404, 'Look among the cases on the bench, or in the rulebook.'],
  [409, 'Go back to the case and look at it again.'],
  [413, 'Shorten what you wrote and send it again.'],
])

/** @param status HTTP status; anything unknown is told as a fault of the program's own */
export function problemPage(status: number, text: string): ProblemPage {
  const heading = headings.get(status) ?? (status < 500 ? 'That did not work' : 'Something broke on our side')
  return {
    frame: plainFrame(`Error: ${heading}`, null),
    heading,
    text,
    advice:
      advices.get(status) ??
      (status < 500
        ? 'Go back and try it another way.'
        : 'Nothing that you said before is lost. Go back and try again; if it happens again, tell the person who runs this bench.'),
  }
}
