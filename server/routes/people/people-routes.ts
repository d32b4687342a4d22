/** Signing in and out, links that work once, and the list of people. */
import type { Request, Response } from 'express'
import { Router } from 'express'
import type { Person } from '../../../shared/person.js'
import { Role } from '../../../shared/person.js'
import { BadRequest, NotFound } from '../../errors.js'
import type { Problem } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { NotSignedIn, staysFor, whoAsks } from '../../middleware/door.js'
import { cookieName, giveKey, keyIn, takeKey } from '../../middleware/session-cookie.js'
import { signInPage, welcomePage } from '../../pages/people/door-pages.js'
import { peoplePage } from '../../pages/people/people-page.js'
import { renderPage } from '../../pages/render.js'
import { linkCode, newKey } from '../../people/link-code.js'
import { isCommon, isRight, kept, leastLetters, mostLetters } from '../../people/passphrase.js'
import type { PersonBook } from '../../people/person-book.js'
import { countTries } from '../../people/tries.js'
import { nameKey } from '../../register/name-key.js'
import type { Deps } from '../../wiring/deps.js'

const hour = 3_600_000
const week = 7 * 24 * hour
/** The cookie of a device that opened a link, until its passphrase is chosen. */
const linkName = 'clipperwright-link'

export function peopleRoutes({ people, now, shopId }: Deps): Router {
  const router = Router()
  const severalShops = shopId !== undefined
  if (!people) {
    router.get('/people', (_req, res) =>
      renderPage(res, 'people/people', peoplePage(null, [], { severalShops })),
    )
    return router
  }
  const tries = countTries()
  const letIn = async (req: Request, res: Response, id: string, to: string): Promise<void> => {
    const key = newKey()
    const before = keyIn(req, cookieName(shopId))
    if (before !== null) await people.signOut(before)
    await people.signIn(id, key, now().toISOString())
    giveKey(req, res, cookieName(shopId), key, { stays: staysFor })
    res.redirect(303, to)
  }
  const leave = (req: Request, res: Response): void => {
    takeKey(req, res, cookieName(shopId))
    res.redirect(303, '/sign-in')
  }

  /** Whether somebody's passphrase is right; held up where it was tried too often from there, or for them. */
  const tried = async (req: Request, res: Response, name: string, typed: string): Promise<Try> => {
    const keys = [`from ${req.ip}`, `as ${nameKey(name)}`]
    const wait = tries.wait(keys, now().getTime())
    if (wait > 0) {
      res.set('Retry-After', String(Math.ceil(wait / 1000)))
      const held = `Too many tries. Wait ${Math.ceil(wait / 60_000)} min, then try again.`
      return { held, right: false }
    }
    // counted before it is looked at: many at once are many
    tries.failed(keys, now().getTime())
    const known = await people.byName(name)
    const right = await isRight(typed.slice(0, mostLetters), known?.passphrase ?? null)
    // one that is longer than any may be is nobody's, also where it begins like somebody's
    if (!known || !right || typed.length > mostLetters) return { held: null, right: false }
    tries.worked(keys)
    return { held: null, right: true, whose: known.person }
  }

  router.get('/sign-in', (req, res) => {
    renderPage(
      res,
      'people/door',
      signInPage(whereTo(textOf(req.query, 'to')), { plainHttp: !req.secure, severalShops }),
    )
  })
  router.post('/sign-in', async (req, res) => {
    const sent = sentFrom(req.body)
    const [name, to] = [textOf(sent, 'name').slice(0, 200), whereTo(textOf(sent, 'to'))]
    const again = (status: number, message: string): void => {
      const problems = [{ field: 'passphrase', message }]
      renderPage(
        res.status(status),
        'people/door',
        signInPage(to, { name, problems, plainHttp: !req.secure, severalShops }),
      )
    }
    const { held, right, whose } = await tried(req, res, name, textOf(sent, 'passphrase'))
    if (held !== null) return again(429, held)
    if (!right) return again(422, 'That name and passphrase do not go together.')
    await letIn(req, res, whose.id, to)
  })
  router.post('/sign-out', async (req, res) => {
    const key = keyIn(req, cookieName(shopId))
    if (key !== null) await people.signOut(key)
    leave(req, res)
  })
  router.post('/sign-out-everywhere', async (req, res) => {
    const you = whoAsks(req)
    if (you) await people.signOutEverywhere(you.id)
    leave(req, res)
  })

  router.post('/passphrase', async (req, res) => {
    const you = whoAsks(req)
    if (!you) throw new NotSignedIn()
    const sent = sentFrom(req.body)
    const again = (status: number, problems: readonly Problem[]) =>
      show(req, res.status(status), { problems })
    const { held, right } = await tried(req, res, you.name, textOf(sent, 'old'))
    if (held !== null) return again(429, [{ field: 'old', message: held }])
    if (!right) return again(422, [{ field: 'old', message: 'That is not your passphrase of until now.' }])
    const passphrase = textOf(sent, 'passphrase')
    const problems = await passphraseProblems(passphrase, you.name)
    if (problems.length > 0) return again(422, problems)
    // every device is signed out by it, and this one comes in anew
    await people.keepPassphrase(you.id, await kept(passphrase))
    await letIn(req, res, you.id, '/people?changed=yes')
  })

  /** Whom a link is for: null for the first lead. @throws NotFound where it does not work */
  const guestOf = async (code: string): Promise<Guest> => {
    const id = await people.linkOf(code, now().toISOString())
    if (id === undefined) throw new NotFound('a link that still works; ask for a new one')
    return id === null ? null : people.person(id)
  }
  // Its secret leaves the address at once: what follows is in no history, no log and no screenshot.
  router.get('/welcome/:code', async (req, res) => {
    await guestOf(req.params.code)
    giveKey(req, res, linkName, req.params.code, { stays: hour, sameSite: 'lax' })
    res.set({ 'Referrer-Policy': 'no-referrer', 'Cache-Control': 'no-store' })
    res.redirect(303, '/welcome')
  })
  router.get('/welcome', async (req, res) => {
    const guest = await guestOf(keyIn(req, linkName) ?? '')
    renderPage(res, 'people/door', welcomePage(guest?.name ?? null, { plainHttp: !req.secure, severalShops }))
  })
  router.post('/welcome', async (req, res) => {
    const code = keyIn(req, linkName) ?? ''
    const guest = await guestOf(code)
    const sent = sentFrom(req.body)
    const name = textOf(sent, 'name')
    const passphrase = textOf(sent, 'passphrase')
    const problems = await passphraseProblems(passphrase, guest?.name ?? name)
    if (problems.length > 0) {
      const told = { name, problems, plainHttp: !req.secure, severalShops }
      return renderPage(res.status(422), 'people/door', welcomePage(guest?.name ?? null, told))
    }
    const checked = await kept(passphrase)
    // once only, also when it is sent twice at the same moment
    if (!(await people.useLink(code))) throw new NotFound('a link that still works; ask for a new one')
    const person = guest ?? (await people.add({ name, role: 'lead', at: now().toISOString() }))
    await people.keepPassphrase(person.id, checked)
    takeKey(req, res, linkName)
    await letIn(req, res, person.id, '/')
  })

  const show = async (
    req: Request,
    res: Response,
    more: Parameters<typeof peoplePage>[2] = {},
  ): Promise<void> => {
    const you = whoAsks(req)
    renderPage(
      res,
      'people/people',
      peoplePage(you, you?.role === 'lead' ? await people.people() : [], { ...more, severalShops }),
    )
  }
  const withLink = async (
    req: Request,
    res: Response,
    person: { id: string; name: string },
  ): Promise<void> => {
    const code = linkCode(shopId)
    await people.makeLink(code, person.id, new Date(now().getTime() + week).toISOString())
    const address = `${req.protocol}://${req.get('host') ?? ''}/welcome/${code}`
    await show(req, res, { link: { name: person.name, address } })
  }
  router.get('/people', (req, res) => show(req, res, { changed: req.query['changed'] === 'yes' }))
  router.post('/people', async (req, res) => {
    const sent = sentFrom(req.body)
    const wanted = { name: textOf(sent, 'name'), role: roleFrom(textOf(sent, 'role')) }
    await orAgain(req, res, async () => {
      await withLink(req, res, await people.add({ ...wanted, at: now().toISOString() }))
    })
  })
  router.post('/people/:id', async (req, res) => {
    const sent = sentFrom(req.body)
    await orAgain(req, res, async () => {
      await people.change(req.params.id, { name: textOf(sent, 'name'), role: roleFrom(textOf(sent, 'role')) })
      res.redirect(303, '/people')
    })
  })
  router.post('/people/:id/link', async (req, res) => withLink(req, res, await people.person(req.params.id)))
  router.post('/people/:id/merge', async (req, res) => {
    await orAgain(req, res, async () => {
      await people.merge(req.params.id, textOf(sentFrom(req.body), 'into'))
      res.redirect(303, '/people')
    })
  })
  router.post('/people/:id/remove', async (req, res) => {
    await orAgain(req, res, async () => {
      await people.remove(req.params.id)
      res.redirect(303, '/people')
    })
  })
  /** A slip of the hand shows the page again, and says what it was. */
  async function orAgain(req: Request, res: Response, work: () => Promise<void>): Promise<void> {
    try {
      await work()
    } catch (error) {
      if (!(error instanceof BadRequest)) throw error
      await show(req, res.status(error.status), {
        problems: [{ field: error.field ?? 'name', message: error.message }],
      })
    }
  }
  return router
}

/** Of a passphrase that was typed. */
type Try =
  | { readonly held: string | null; readonly right: false; readonly whose?: undefined }
  | { readonly held: null; readonly right: true; readonly whose: Person }

type Guest = Awaited<ReturnType<PersonBook['person']>> | null

/** Nowhere but here: an address of this server, never of another. */
const whereTo = (to: string): string =>
  /^\/(?![/\\])[\x21-\x7e]{0,300}$/.test(to) && !to.includes('\\') ? to : '/'

const roleFrom = (text: string): Role => {
  const read = Role.safeParse(text)
  if (read.success) return read.data
  throw new BadRequest('Choose who it is.', { status: 422, field: 'role' })
}

async function passphraseProblems(passphrase: string, name: string): Promise<Problem[]> {
  const wrong = (message: string): Problem[] => [{ field: 'passphrase', message }]
  if (passphrase.length < leastLetters) return wrong(`A passphrase has ${leastLetters} letters at least.`)
  if (passphrase.length > mostLetters) return wrong(`A passphrase has ${mostLetters} letters at most.`)
  if (
    passphrase.toLowerCase().includes(name.trim().toLowerCase()) &&
    passphrase.length < name.trim().length + leastLetters
  )
    return wrong('That is nearly your name; choose something that others do not guess.')
  if (await isCommon(passphrase))
    return wrong(
      'Many people have that one, so it is tried first. Put a few words together that only you would.',
    )
  return []
}
