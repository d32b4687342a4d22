/** Told on the pages of the rulebook while the files on disk are not what the shop runs on. */
import type { RulebookProblem } from '../../errors.js'
import { clockWords, counted } from '../layout/words.js'

interface RulebookNotice {
  readonly heading: string
  readonly text: string
  readonly problems: readonly { readonly where: string; readonly what: string; readonly remedy: string }[]
  /** "and 12 more", or empty */
  readonly more: string
}

export type Noticed<Page> = Page & { readonly notice: RulebookNotice | null }

interface BenchState {
  /** when the rulebook in use was taken over */
  readonly since: Date
  readonly keptOut: { readonly at: Date; readonly problems: readonly RulebookProblem[] } | null
}

/** As many as one mends before looking again. */
const mostTold = 12

/** The page with the notice that belongs on it, if any. */
export function noticed<Page>(standing: BenchState, page: Page): Noticed<Page> {
  return { ...page, notice: noticeOf(standing) }
}

function noticeOf({ since, keptOut }: BenchState): RulebookNotice | null {
  if (!keptOut) return null
  const { at, problems } = keptOut
  const mistakes = counted(problems.length, 'mistake')
  const more = problems.length - mostTold
  return {
    heading: `The rulebook on disk has ${mistakes}; the shop runs on the one from ${clockWords(since, at)}`,
    text: `Read at ${clockWords(at, at)}. Put this right and save; what is whole is taken over by itself.`,
    problems: problems.slice(0, mostTold).map(({ file, field, message, remedy }) => ({
      where: field === '' ? file : `${file}, ${field}`,
      what: message,
      remedy: remedy ?? '',
    })),
    more: more > 0 ? `and ${more} more, on the console of the server` : '',
  }
}
