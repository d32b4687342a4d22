/** Who is at the phone: told once, remembered by the browser. */
import type { Request, Response } from 'express'

const name = 'who'
const aYear = 366 * 24 * 3600 * 1000

/** Empty where nobody said. */
export function whoIn({ headers }: Request): string {
  const [, value = ''] = new RegExp(`(?:^|;\\s*)${name}=([^;]*)`).exec(headers.cookie ?? '') ?? []
  try {
    return decodeURIComponent(value).slice(0, 60)
  } catch {
    return ''
  }
}

export const keepWho = (res: Response, who: string): void =>
  void res.cookie(name, who.slice(0, 60), { maxAge: aYear, httpOnly: true, sameSite: 'lax' })
