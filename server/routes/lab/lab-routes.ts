import { Router } from 'express'
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import { onceFor } from '../../../shared/once-for.js'
import type { ShopSettings } from '../../../shared/situation.js'
import { Situation } from '../../../shared/situation.js'
import type { AtHand, Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { changed } from '../../lab/changes.js'
import { pastes } from '../../lab/paste.js'
import { newProblems } from '../../lab/new-problems.js'
import { priorsIn, type Reckoned } from '../../lab/reckon.js'
import { shortQuery } from '../../pages/lab/address.js'
import { labFormFrom, type LabForm } from '../../forms/lab-form.js'
import { labMarks, type LabMarks, type Marks } from '../../pages/lab/marks.js'
import { labPage } from '../../pages/lab/lab-page.js'
import { renderPage } from '../../pages/render.js'
import { noticed } from '../../pages/rulebook/notice.js'
import type { DoSum } from '../../remembered/heavy-sums.js'
import { rememberLately } from '../../remembered/lately.js'
import { onThisThread } from '../../remembered/side-thread.js'
import { settingsOf } from '../../bench/reckoning.js'

/** The dry run. Nothing is kept: all that is said and changed stands in the address. */
export function labRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/lab', async (req, res) => {
    const hand = atHand(deps, req)
    const { knowledge: whole } = hand
    const { record } = hand.shop
    const kind = whole.kinds.find(({ id }) => id === req.query['kind'])?.id ?? whole.kinds[0]?.id ?? ''
    const book = bookOf(whole, kind)
    const form = labFormFrom(book, kind, req.query)
    const query = shortQuery(form)
    // A browser sends every field, those left empty too. What nobody knows stays, so that the page can name it.
    if (form.unknown.length === 0 && query.size < Object.keys(req.query).length)
      return res.redirect(303, `/lab?${query.toString()}`)
    const tried = changed(whole, form.trial)
    const same = tried === whole
    const shop = settingsOf(form.situation, whole, record)
    const asItIs = await inUse(hand, form, shop)
    const { doSum = onThisThread } = hand
    const { situation } = form
    const page = labPage(
      {
        whole,
        book,
        after: bookOf(tried, kind),
        shop,
        record,
        asItIs,
        trial: same
          ? asItIs
          : await doSum(hand.prepared, 'trial', { tried: bookOf(tried, kind), situation, shop }),
        problems: newProblems(whole, tried),
        pastes: pastes(whole, tried),
        marks: form.marks ? await marksOf(hand, doSum, tried, kind) : null,
      },
      form,
    )
    renderPage(form.problems.length > 0 ? res.status(422) : res, 'lab/lab', noticed(hand, page))
  })
  return router
}

async function inUse({ assessments }: AtHand, { situation }: LabForm, shop: ShopSettings): Promise<Reckoned> {
  const untold = Situation.parse({ kind: situation.kind })
  return {
    assessment: await assessments.of(situation, shop),
    before: priorsIn(await assessments.of(untold, shop)),
  }
}

const marksBefore = onceFor((_: Knowledge) => rememberLately<Marks>(mostKinds))
/** More than there are kinds. */
const mostKinds = 20

/** @returns null where no priors can be made of the changed shares */
async function marksOf(
  { knowledge: whole, prepared }: AtHand,
  doSum: DoSum,
  tried: Knowledge,
  kind: string,
): Promise<LabMarks | null> {
  try {
    const was = await marksBefore(whole)(kind, () => doSum(prepared, 'marks', { tried: null, kind }))
    return labMarks(was, tried === whole ? was : await doSum(prepared, 'marks', { tried, kind }))
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}
