/**
 * One address for the benches of a worker, which come one after the other: what the browser has read there, styles and
 * inspector, it need not read again for the next.
 */
import type { Express } from 'express'
import { once } from 'node:events'
import type { Server } from 'node:http'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { inspector } from './inspection.js'

let serving: Express | null = null
let server: Promise<Server> | undefined

async function listening(): Promise<Server> {
  const server = createServer((req, res) => {
    if (req.url === inspector.path) {
      res.setHeader('Content-Type', 'text/javascript').setHeader('Cache-Control', 'max-age=3600')
      res.end(inspector.source)
    } else if (serving) serving(req, res)
    else res.writeHead(503).end()
  }).listen(0, '127.0.0.1')
  await once(server, 'listening')
  // nothing waits for it when all else is done
  return server.unref()
}

export const counter = {
  /** @returns the address at which the application is found from now on */
  async open(app: Express): Promise<string> {
    if (serving) throw new Error('The bench before this one is still open; close it first.')
    serving = app
    const { port } = (await (server ??= listening())).address() as AddressInfo
    return `http://127.0.0.1:${port}`
  },
  close(): void {
    serving = null
  },
}
