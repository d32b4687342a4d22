/** Everything that touches the process: files, the port, signals, exit codes. `start.ts` and `demo.ts` call it. */
import { randomInt } from 'node:crypto'
import type { Express } from 'express'
import type { Server } from 'node:http'
import { hostname, networkInterfaces } from 'node:os'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Config } from './config.js'
import type { Kept } from './house.js'
import { houseOver, openKept } from './house.js'
import { CannotStart } from '../errors.js'
import { linkCode } from '../people/link-code.js'
import { sideThread } from '../remembered/side-thread.js'
import { loadKnowledge } from '../rulebook/load.js'
import { RulebookHolder, rulebookInUse } from '../rulebook/live-rulebook.js'
import type { Stores } from '../store/stores.js'
import { watchRules } from '../rulebook/watch-rules.js'

/** A server that listens. */
export interface Serving {
  readonly addresses: readonly string[]
  /** lines for whoever starts it on a network for the first time */
  readonly welcome: readonly string[]
  /** Stops watching, answers what is under way, then closes port and file. */
  close(): Promise<void>
}

/**
 * Loads the rulebook, opens cases and register, and listens.
 *
 * @param before what to do with the open stores first, such as putting a demo's cases into them
 * @throws CannotStart when rulebook, file, folder or port cannot be used
 */
export async function serve(
  config: Config,
  before?: (stores: Stores, knowledge: Knowledge) => Promise<void>,
): Promise<Serving> {
  const now = () => new Date()
  const knowledge = loadKnowledge(config.rulesDir)
  const side = sideThread((error) => console.error('The side thread broke; its work is done here:', error))
  const takeIn = (read: Knowledge, since: Date) => rulebookInUse(read, since, { doSum: side.doSum })
  const holder = new RulebookHolder(await takeIn(knowledge, now()))
  const kept = await openKept(config)
  side.warm(knowledge)
  try {
    await before?.(kept.stores, knowledge)
    const house = await houseOver(kept, {
      rulebook: holder,
      now,
      newSeed: () => randomInt(2 ** 32),
      names: namesOf(config),
      doSum: side.doSum,
      signIn: signsIn(config),
      ...(config.trustProxy !== undefined && { trustProxy: config.trustProxy }),
      production: process.env['NODE_ENV'] !== 'development',
    })
    const server = await listen(house.app, config)
    const addresses = addressesOf(server, config.host)
    const welcome = signsIn(config) ? await firstLink(kept, addresses, now()) : []
    const copying = copyEachNight(kept)
    const watching = config.watchRules
      ? watchRules({ dir: config.rulesDir, holder, now, say: console.log, takeIn })
      : undefined
    return {
      addresses,
      welcome,
      async close() {
        await watching?.close()
        await copying.stop()
        await closeServer(server)
        await house.close()
        await kept.close()
        await side.close()
      },
    }
  } catch (error) {
    await side.close()
    await kept.close()
    throw error
  }
}

/** On this machine alone nobody signs in; behind a proxy it is open to whoever the proxy lets through. */
const signsIn = ({ host, trustProxy }: Config): boolean =>
  trustProxy !== undefined || !(host === 'localhost' || host === '::1' || /^127\./.test(host))

/** While nobody has a name here: a link by which the first lead comes in, new with every start. */
async function firstLink(
  { stores: { people }, shopId }: Kept,
  addresses: readonly string[],
  now: Date,
): Promise<string[]> {
  if ((await people.people()).length > 0) return []
  const code = linkCode(shopId)
  await people.makeLink(code, null, new Date(now.getTime() + 24 * 3_600_000).toISOString())
  const home = (addresses[1] ?? addresses[0] ?? '').split(' ')[0]!
  return [
    'Nobody has a name here yet. Open this once, and be the first lead:',
    `  ${home}/welcome/${code}`,
    'Until then the network gets nothing but a door.',
  ]
}

/** Looked at every ten minutes: a computer that is off at night makes the day's copy once it is on. */
function copyEachNight(kept: Pick<Kept, 'nightly'>): { stop(): Promise<void> } {
  let underWay: Promise<void> | undefined
  const look = (): void => {
    underWay = kept.nightly().catch((error: unknown) => console.error(error))
  }
  look()
  const timer = setInterval(look, 600_000).unref()
  return {
    // a copy that was begun is ended before its file is closed
    async stop() {
      clearInterval(timer)
      await underWay
    },
  }
}

/** Runs until the process is told to stop. A start that fails says why in a sentence and ends with code 1. */
export async function runUntilStopped(start: () => Promise<Serving>, after?: () => void): Promise<void> {
  try {
    const serving = await start()
    let stopping = false
    const stop = () => {
      // Ctrl+C reaches us twice when a runner passes it on; the second must not cut the end short.
      if (stopping) return
      stopping = true
      void serving
        .close()
        .then(after)
        .finally(() => process.exit())
    }
    // Before anything is printed: whoever reads the addresses may stop us at once.
    process.on('SIGINT', stop).on('SIGTERM', stop)
    console.log(
      ['clipperwright is open at', ...serving.addresses.map((address) => `  ${address}`)].join('\n'),
    )
    for (const line of serving.welcome) console.log(line)
    console.log('Stop it with Ctrl+C.')
  } catch (error) {
    after?.()
    console.error(error instanceof CannotStart ? error.message : error)
    process.exitCode = 1
  }
}

function listen(app: Express, { port, host }: Config): Promise<Server> {
  return new Promise((resolve, reject) => {
    const server = app.listen(port, host, (error?: Error) => {
      if (error) reject(new CannotStart(whyNot(error, port, host), { cause: error }))
      else resolve(server)
    })
  })
}

function whyNot(error: NodeJS.ErrnoException, port: number, host: string): string {
  switch (error.code) {
    case 'EADDRINUSE':
      return `Port ${port} on ${host} is in use by another program, perhaps a second clipperwright; stop that one, or choose another port with PORT=${port + 1}.`
    case 'EACCES':
      return `This program may not use port ${port}; choose one from 1024 up, such as PORT=3000.`
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
    case 'EAI_AGAIN':
      return `This machine has no address ${host}; set HOST to 127.0.0.1, or to 0.0.0.0 for every device in the network.`
    default:
      return `Nothing can be served at ${host}, port ${port}: ${error.message}`
  }
}

/** Those that were configured, and the machine's own as the network says it: `shop`, `shop.local` (RFC 6762). */
function namesOf({ host, names }: Config): string[] {
  const own = hostname()
  const short = own.split('.')[0]!
  return [host, own, short, `${short}.local`, ...names]
}

/** Where a browser finds it: every address of the machine when it listens at all of them. */
function addressesOf(server: Server, host: string): string[] {
  const bound = server.address()
  const port = typeof bound === 'object' && bound ? bound.port : 0
  const at = (name: string) => `http://${name.includes(':') ? `[${name}]` : name}:${port}`
  if (host !== '0.0.0.0' && host !== '::') return [at(host)]
  const others = Object.values(networkInterfaces())
    .flatMap((cards) => cards ?? [])
    .filter(({ internal, family }) => !internal && family === 'IPv4')
    .map(({ address }) => `${at(address)}  (for a phone in the same network)`)
  return [at('127.0.0.1'), ...others]
}

async function closeServer(server: Server): Promise<void> {
  const closed = new Promise<void>((resolve) => server.close(() => resolve()))
  // A browser keeps connections open for the next page; whoever is idle for so long gets none.
  const soon = setTimeout(() => server.closeAllConnections(), 2000)
  server.closeIdleConnections()
  await closed
  clearTimeout(soon)
}
