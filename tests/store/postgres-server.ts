/** A PostgreSQL server of its own for a test, in a temporary folder, run by an ordinary user. */
import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { chownSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import pg from 'pg'

/** Where Debian's packages put it, latest first, then wherever programs are looked for. */
const folders = [
  ...(existsSync('/usr/lib/postgresql')
    ? readdirSync('/usr/lib/postgresql')
        .sort((a, b) => Number(b) - Number(a))
        .map((version) => `/usr/lib/postgresql/${version}/bin`)
    : []),
  ...(process.env['PATH'] ?? '').split(delimiter),
]
const programs = folders.find((folder) => ['initdb', 'postgres'].every((it) => existsSync(join(folder, it))))

/** Why there is none; null where there is. `.ci/run` sees to it that there is. */
export const noPostgres: string | null =
  programs === undefined
    ? 'NOT TESTED: no PostgreSQL server on this machine (apt-get install postgresql brings one), so nothing says that the store works on it'
    : null

export interface PostgresServer {
  /** of an empty database, another one each time */
  freshUrl(): Promise<string>
  stop(): Promise<void>
}

export async function startPostgres(): Promise<PostgresServer> {
  if (programs === undefined) throw new Error('no PostgreSQL server on this machine')
  const folder = mkdtempSync(join(tmpdir(), 'postgres-'))
  const user = ordinaryUser()
  if (user) chownSync(folder, user.uid, user.gid)
  const env = { PATH: process.env['PATH'], LC_ALL: 'C.UTF-8' }
  const data = join(folder, 'data')
  const made = spawnSync(
    join(programs, 'initdb'),
    ['-D', data, '-U', 'shop', '-A', 'trust', '-E', 'UTF8', '--no-sync', '--no-instructions'],
    { ...user, env, encoding: 'utf8' },
  )
  if (made.status !== 0) throw new Error(`initdb failed: ${made.stderr}`)
  const args = { port: '5432', unix_socket_directories: folder, listen_addresses: '', fsync: 'off' }
  const server = spawn(
    join(programs, 'postgres'),
    ['-D', data, ...Object.entries(args).flatMap(([name, value]) => ['-c', `${name}=${value}`])],
    { ...user, env, stdio: ['ignore', 'ignore', 'pipe'] },
  )
  const gone = once(server, 'exit')
  let said = ''
  await new Promise<void>((resolve, reject) => {
    server.stderr.on('data', (text: Buffer) => {
      said += text.toString()
      if (said.includes('ready to accept connections')) resolve()
    })
    server.once('exit', () => reject(new Error(`PostgreSQL ended: ${said}`)))
  })
  const urlOf = (database: string) =>
    `postgres://shop@localhost/${database}?host=${encodeURIComponent(folder)}`
  let count = 0
  return {
    async freshUrl() {
      const name = `fresh${++count}`
      const client = new pg.Client(urlOf('postgres'))
      await client.connect()
      // a collation that puts letters otherwise than bytes, where there is one: the store must not go by it
      await client.query(
        `create database ${name} template template0 locale_provider icu icu_locale 'en' locale 'C.UTF-8'`,
      )
      await client.end()
      return urlOf(name)
    },
    async stop() {
      server.kill('SIGQUIT')
      await gone
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** The server refuses to run as root. */
function ordinaryUser(): { uid: number; gid: number } | undefined {
  if (process.getuid?.() !== 0) return undefined
  const users = readFileSync('/etc/passwd', 'utf8').split('\n')
  const line = ['postgres', 'nobody'].flatMap(
    (name) => users.find((it) => it.startsWith(`${name}:`)) ?? [],
  )[0]
  const [, , uid, gid] = (line ?? '').split(':').map(Number)
  return { uid: uid!, gid: gid! }
}
