/**
 * Several shops of one database under one address. Each has an application of its own over its own stores; here is told
 * which one a request is for: by the shop in the address of a link, by what the device carries, or because there is but one.
 */
import type { Express, Request, RequestHandler, Response } from 'express'
import express, { Router } from 'express'
import { LRUCache } from 'lru-cache'
import { servePublicParts } from './public-parts.js'
import { textOf } from '../forms/answer-form.js'
import { sentFrom } from '../forms/sent.js'
import { NotSignedIn } from '../middleware/door.js'
import { hostNames } from '../middleware/host-names.js'
import { cookieName, giveKey, keyIn, shopsOn } from '../middleware/session-cookie.js'
import { sameOrigin } from '../middleware/same-origin.js'
import { otherShopPage } from '../pages/people/other-shop-page.js'
import { renderPage } from '../pages/render.js'
import { countTries } from '../people/tries.js'
import type { Deps } from './deps.js'
import { errorPage } from './error-page.js'

/** A shop that is open. */
interface OpenShop {
  readonly app: Express
  /** whose device this is in that shop; null for nobody's */
  whoIs(key: string): Promise<{ readonly name: string } | null>
}
interface KnownShop {
  readonly id: string
  readonly name: string
}
export interface Shops {
  shops(): Promise<readonly KnownShop[]>
  called(name: string): Promise<KnownShop | null>
  open(id: string): Promise<OpenShop>
}

/** Open at a time in one process; the others are opened when somebody asks. */
const mostOpen = 50
/** Which shop a device was in last: no secret, and nothing without a key of that shop. */
const shopCookie = `${cookieName()}-shop`
const year = 365 * 24 * 3_600_000

export function shopFront(
  shops: Shops,
  options: Pick<Deps, 'production' | 'trustProxy' | 'now' | 'names'> & { signIn: boolean },
): Express {
  const app = express()
  if (options.trustProxy !== undefined) app.set('trust proxy', options.trustProxy)
  servePublicParts(app, options.production)
  app.use(hostNames(options.names ?? []))
  const open = new LRUCache<string, Promise<OpenShop>>({ max: mostOpen })
  const opened = async (id: string): Promise<OpenShop | null> => {
    const known = open.get(id)
    if (known) return known
    if (!(await shops.shops()).some((shop) => shop.id === id)) return null
    const fresh = shops.open(id)
    open.set(id, fresh)
    fresh.catch(() => open.get(id) === fresh && open.delete(id))
    return fresh
  }
  app.use('/other-shop', otherShop({ ...shops, opened }, options))
  app.use((async (req, res, next) => {
    const linked = inLink.exec(req.path)?.[1]
    const shop = await opened(linked ?? shopOf(req) ?? '')
    if (shop) {
      if (linked !== undefined) carry(req, res, linked)
      return shop.app(req, res, next)
    }
    const all = await shops.shops()
    const only = all.length === 1 ? await opened(all[0]!.id) : null
    if (only) return only.app(req, res, next)
    if (req.method !== 'GET' || req.path.startsWith('/api')) throw new NotSignedIn()
    res.redirect(303, '/other-shop')
  }) satisfies RequestHandler)
  app.use(errorPage())
  return app
}

/** A link that lets somebody in, or a calendar, names its shop. */
const inLink = /^\/(?:welcome|calendar)\/([0-9a-z]{8})-/

/** The shop that a device was in last; else the only one it has a key of. */
function shopOf(req: Request): string | undefined {
  const keys = shopsOn(req)
  return keyIn(req, shopCookie) ?? (keys.length === 1 ? keys[0] : undefined)
}

/** It is no secret, and a link in a letter has to find its shop. */
const carry = (req: Request, res: Response, id: string): void =>
  giveKey(req, res, shopCookie, id, { stays: year, sameSite: 'lax' })

/** Choosing among the shops that this device has a key of, or another one by its name: nobody is shown a list. */
function otherShop(
  shops: Shops & { opened(id: string): Promise<OpenShop | null> },
  { signIn, now }: { signIn: boolean; now: () => Date },
): Router {
  const router = Router()
  const tries = countTries()
  const own = async (req: Request): Promise<KnownShop[]> => {
    const all = await shops.shops()
    if (!signIn) return [...all]
    const mine: KnownShop[] = []
    for (const shop of all.filter(({ id }) => shopsOn(req).includes(id))) {
      const key = keyIn(req, cookieName(shop.id))
      if (key !== null && (await (await shops.opened(shop.id))?.whoIs(key))) mine.push(shop)
    }
    return mine
  }
  const show = async (req: Request, res: Response, wrong?: { name: string; message: string }) =>
    renderPage(res, 'people/other-shop', otherShopPage(await own(req), wrong))
  router.get('/', (req, res) => show(req, res))
  router.post('/', sameOrigin(), express.urlencoded({ extended: false, limit: '4kb' }), async (req, res) => {
    const sent = sentFrom(req.body ?? {})
    const name = textOf(sent, 'name')
    const from = [`from ${req.ip}`]
    const again = (status: number, message: string) => show(req, res.status(status), { name, message })
    const chosen = (await own(req)).find(({ id }) => id === textOf(sent, 'shop'))
    if (!chosen && tries.wait(from, now().getTime()) > 0)
      return again(429, 'Too many tries. Wait some minutes, then try again.')
    const shop = chosen ?? (await shops.called(name))
    if (!shop) {
      tries.failed(from, now().getTime())
      return again(422, 'No shop has this name. Ask a lead how it is written.')
    }
    carry(req, res, shop.id)
    res.redirect(303, '/')
  })
  return router
}
