/**
 * A client in a process of its own, so that its work is not counted as the server's: asks for one page over
 * and over on a few connections that are kept open. Raw sockets, because a heavier client would become the
 * bottleneck and flatter the slower of two servers.
 */
import { connect } from 'node:net'
import type { Socket } from 'node:net'

/** One round: so many requests for one page of a server on this machine. */
export interface Round {
  readonly port: number
  readonly path: string
  readonly connections: number
  readonly requests: number
}

const endOfHead = Buffer.from('\r\n\r\n')

/** Sends one request and waits for the whole answer. @throws Error for any answer but 200 with a length */
function exchange(socket: Socket, request: string): Promise<void> {
  return new Promise((resolve, reject) => {
    let got: Buffer = Buffer.alloc(0)
    let wanted = -1
    const done = (problem?: Error): void => {
      socket.off('data', read).off('error', done)
      if (problem) reject(problem)
      else resolve()
    }
    const read = (chunk: Buffer): void => {
      got = got.length === 0 ? chunk : Buffer.concat([got, chunk])
      if (wanted < 0) {
        const end = got.indexOf(endOfHead)
        if (end < 0) return
        const head = got.toString('latin1', 0, end)
        const length = /content-length: (\d+)/i.exec(head)?.[1]
        if (!head.startsWith('HTTP/1.1 200') || length === undefined)
          return done(new Error(`not a page: ${head}`))
        wanted = end + endOfHead.length + Number(length)
      }
      if (got.length >= wanted) done()
    }
    socket.on('data', read).on('error', done)
    socket.write(request)
  })
}

async function run({ port, path, connections, requests }: Round): Promise<void> {
  const request = `GET ${path} HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nAccept: text/html\r\n\r\n`
  let left = requests
  await Promise.all(
    Array.from({ length: connections }, async () => {
      const socket = connect(port, '127.0.0.1').setNoDelay()
      while (left-- > 0) await exchange(socket, request)
      socket.destroy()
    }),
  )
}

process.on('message', (round: Round) => {
  run(round).then(
    () => process.send?.({ done: true }),
    (error: unknown) => process.send?.({ done: false, why: String(error) }),
  )
})
