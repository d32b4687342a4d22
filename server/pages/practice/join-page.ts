/** Joining a class from a phone: its word, its number, a name. */
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'

export interface JoinPage {
  readonly frame: Frame
  readonly problems: readonly Problem[]
  readonly word: string
  readonly pin: string
  readonly name: string
  readonly beside: string
}

export const joinPage = (sent: Sent, problems: readonly Problem[] = []): JoinPage => ({
  frame: plainFrame(problems.length > 0 ? 'Error: join your class' : 'Join your class', 'practice'),
  problems,
  word: textOf(sent, 'word'),
  pin: textOf(sent, 'pin'),
  name: textOf(sent, 'name'),
  beside: textOf(sent, 'beside'),
})
