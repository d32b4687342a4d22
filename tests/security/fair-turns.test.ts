/** One device that asks for three hundred things at once holds up no other, and is told when it is too much. */
import express from 'express'
import type { Express } from 'express'
import { once } from 'node:events'
import type { AddressInfo } from 'node:net'
import { connect } from 'node:net'
import { expect, it } from 'vitest'
import { fairTurns } from '../../server/middleware/fair-turns.js'

/** `X-Forwarded-For` stands for different devices. */
function shop(order: string[]): Express {
  const app = express()
  app.set('trust proxy', true)
  app.use(fairTurns())
  app.get('/:who', (req, res) => {
    order.push(req.params.who)
    res.send('done')
  })
  app.use(
    ((error, _req, res, _next) =>
      void res.status((error as { status: number }).status).end()) satisfies express.ErrorRequestHandler,
  )
  return app
}

it('answers each device in its turn', async () => {
  const order: string[] = []
  const server = shop(order).listen(0, '127.0.0.1')
  await once(server, 'listening')
  const { port } = server.address() as AddressInfo
  const send = (who: string, times: number) => {
    const socket = connect(port, '127.0.0.1')
    socket.write(
      `GET /${who} HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Forwarded-For: ${who === 'many' ? '10.0.0.1' : '10.0.0.2'}\r\n\r\n`.repeat(
        times,
      ),
    )
    let text = ''
    socket.on('data', (more) => (text += more.toString()))
    return {
      answered: (count: number) =>
        new Promise<string>((resolve) => {
          const look = () => text.split('HTTP/1.1 ').length > count && (resolve(text), socket.destroy())
          socket.on('data', look)
        }),
    }
  }
  const many = send('many', 300).answered(300)
  const one = send('one', 1).answered(1)
  const [text] = await Promise.all([many, one])
  // behind at most what was worked on at once and one round, not behind all of them
  expect(order.indexOf('one')).toBeLessThan(100)
  // what no longer fitted in the line was told so (RFC 6585 §4)
  const told = (status: number) => text.split(`HTTP/1.1 ${status}`).length - 1
  expect(told(200) + told(429)).toBe(300)
  expect(told(429)).toBeGreaterThan(100)
  server.close()
  server.closeAllConnections()
})
