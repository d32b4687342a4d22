/** What a server serves: the one shop of a file, or all those of a database. */
import type { Express } from 'express'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { createApp } from './app.js'
import type { Config } from './config.js'
import type { Deps } from './deps.js'
import { atHand } from './deps.js'
import { shopFront } from './shop-front.js'
import { openHabits } from '../care/shop-habits.js'
import { newCaseId } from '../cases/case-id.js'
import { openShopFigures } from '../cases/shop-figures.js'
import { CannotStart } from '../errors.js'
import { staysFor } from '../middleware/door.js'
import { scoreTheRest } from '../practice-bench/keep-outcome.js'
import { as } from '../store/acting.js'
import type { ShopDatabase } from '../store/shop-database.js'
import { openShopDatabase } from '../store/shop-database.js'
import type { Stores } from '../store/stores.js'
import { openStores } from '../store/stores.js'

/** What is kept, open. */
export interface Kept {
  /** those of the only shop, or of the first */
  readonly stores: Stores
  readonly shopId?: string
  readonly database: ShopDatabase | null
  /** Of every shop the night's copy, unless it was made. */
  nightly(): Promise<void>
  close(): Promise<void>
}

const ids = { newId: newCaseId, newKey: newCaseId }

/** @throws CannotStart where folder, file or database cannot be used */
export async function openKept({ databaseUrl, dataDir, keepCopies }: Config): Promise<Kept> {
  if (databaseUrl !== undefined) {
    const database = await openShopDatabase(databaseUrl, {
      copies: { folder: join(dataDir, 'backups'), keep: keepCopies },
    })
    const shopId = (await database.shops())[0]!.id
    return {
      stores: await database.open(shopId, ids),
      shopId,
      database,
      async nightly() {
        for (const { id } of await database.shops()) await (await database.open(id, ids)).copies?.nightly()
      },
      close: () => database.close(),
    }
  }
  const file = join(dataDir, 'cases.db')
  try {
    mkdirSync(dataDir, { recursive: true })
    const stores = await openStores({ file, ...ids, keepCopies })
    return {
      stores,
      database: null,
      nightly: async () => stores.copies?.nightly(),
      close: () => stores.close(),
    }
  } catch (error) {
    if (!(error instanceof Error) || !('code' in error)) throw error
    throw new CannotStart(
      `The cases cannot be kept in ${file} (${error.message}); set DATA_DIR to a folder that this program may write to.`,
      { cause: error },
    )
  }
}

/** What all shops of a process have in common. */
type Common = Pick<Deps, 'rulebook' | 'now' | 'newSeed' | 'names' | 'trustProxy' | 'doSum' | 'production'> & {
  readonly signIn: boolean
}

export interface House {
  readonly app: Express
  /** Once what was begun behind the requests is done, or may be left. */
  close(): Promise<void>
}

/** @param ids how rows of shops that are opened later are numbered; by chance unless told */
export async function houseOver(
  { stores, database }: Pick<Kept, 'stores' | 'database'>,
  common: Common,
  idsOf = () => ids,
): Promise<House> {
  const closing = new AbortController()
  const scoring = new Set<Promise<void>>()
  const openShop = async (its: Stores, shopId?: string) => {
    const deps = await shopDeps(its, common, shopId)
    const work = scoreTheRest(atHand(deps, {}), closing.signal).finally(() => scoring.delete(work))
    scoring.add(work)
    return createApp(deps)
  }
  const app = database
    ? shopFront(
        {
          ...database,
          async open(id) {
            const its = await database.open(id, idsOf())
            return {
              app: await openShop(its, id),
              whoIs(key) {
                const now = common.now()
                const after = new Date(now.getTime() - staysFor)
                return its.people.signedIn(key, now.toISOString(), after.toISOString())
              },
            }
          },
        },
        common,
      )
    : await openShop(stores)
  return {
    app,
    async close() {
      closing.abort()
      await Promise.all(scoring)
    },
  }
}

async function shopDeps(stores: Stores, { signIn, ...common }: Common, shopId?: string): Promise<Deps> {
  const { cases, register, tools, care, parts, people, written, copies, exports } = stores
  return {
    ...common,
    cases,
    register,
    tools,
    care,
    parts,
    written,
    copies,
    exports,
    shop: await openShopFigures(cases),
    habits: await openHabits(care, Intl.DateTimeFormat().resolvedOptions().timeZone),
    ...(signIn && { people, as }),
    ...(shopId !== undefined && { shopId }),
  }
}
