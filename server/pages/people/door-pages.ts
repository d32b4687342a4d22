/** Signing in, and the page of a link that works once. */
import type { Problem } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'

export interface DoorFormPage {
  readonly frame: Frame
  readonly heading: string
  readonly action: string
  /** where to go on afterwards */
  readonly to: string
  /** null: the link says who it is */
  readonly name: string | null
  readonly isNew: boolean
  readonly hint: string
  readonly button: string
  /** may somebody be of another shop of the same database? */
  readonly severalShops: boolean
  /** said once where the address is not encrypted */
  readonly plainHttp: boolean
  readonly problems: readonly Problem[]
}

interface Told {
  readonly name?: string
  readonly problems?: readonly Problem[]
  readonly plainHttp: boolean
  readonly severalShops: boolean
}

export const signInPage = (
  to: string,
  { name = '', problems = [], plainHttp, severalShops }: Told,
): DoorFormPage => ({
  frame: { ...plainFrame('Sign in'), place: null },
  heading: 'Sign in',
  action: '/sign-in',
  to,
  name,
  isNew: false,
  hint: 'No name here yet? A lead of the shop sends you a link.',
  button: 'Sign in',
  plainHttp,
  severalShops,
  problems,
})

/** @param known the name of whom the link is for; null: the first lead says it */
export const welcomePage = (
  known: string | null,
  { name = '', problems = [], plainHttp, severalShops }: Told,
): DoorFormPage => ({
  frame: { ...plainFrame('Welcome'), place: null },
  heading: known === null ? 'Welcome: you are the first lead' : `Welcome, ${known}`,
  action: '/welcome',
  to: '',
  name: known === null ? name : null,
  isNew: true,
  hint: 'Choose a passphrase: a few words that only you would put together, 8 letters at least.',
  button: 'Go on',
  plainHttp,
  severalShops,
  problems,
})
