import type { Response } from 'express'
import { problemPage } from '../../pages/layout/problem-page.js'
import { renderPage } from '../../pages/render.js'
import type { Viewer, Wish } from '../../register/who-may.js'
import { may } from '../../register/who-may.js'

/**
 * The one question before a page of practice is made. Where the answer is no, the page that says so is sent.
 *
 * @param words why not, and where to go instead, to the person who asked
 */
export function isRefused(res: Response, who: Viewer, wish: Wish, words: string): boolean {
  if (may(who, wish)) return false
  renderPage(res.status(403), 'layout/problem', {
    ...problemPage(403, words),
    heading: 'Not from this page',
    advice: 'Go back to Practice and choose who you are.',
  })
  return true
}
