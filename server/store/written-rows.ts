/** A line for each write of tools, parts, care, figures and classes, kept with it or not at all. */
import { randomBytes } from 'node:crypto'
import type { Kysely } from 'kysely'
import type { WrittenAbout, WrittenLog } from '../people/written-log.js'
import { whoActs } from './acting.js'

interface Tables {
  written: {
    id: string
    at: string
    about: string
    about_id: string
    did: string
    by_person: string | null
    /** 1 where somebody was, whoever it was */
    signed_in: number
  }
  person: { id: string; name: string }
}

/** Lines of one program within a millisecond keep the order in which they were written. */
let last = { at: '', place: 0 }
function nextPlace(at: string): string {
  last = { at, place: at === last.at ? last.place + 1 : 0 }
  return String(last.place).padStart(6, '0')
}

/** @param within the transaction of what was written */
export async function note(
  within: object,
  about: WrittenAbout,
  those: readonly { readonly id: string; readonly did: string }[],
): Promise<void> {
  if (those.length === 0) return
  const at = new Date().toISOString()
  const by = whoActs()
  // in the order of time, and never twice the same
  const rows = those.map(({ id, did }) => ({
    id: `${at} ${nextPlace(at)} ${randomBytes(6).toString('hex')}`,
    at,
    about,
    about_id: id,
    did,
    by_person: by,
    signed_in: by === null ? 0 : 1,
  }))
  await (within as Kysely<Tables>).insertInto('written').values(rows).execute()
}

export function writtenLogIn(file: Kysely<unknown>): WrittenLog {
  const db = file as Kysely<Tables>
  return {
    about: (what, id, most) =>
      db
        .selectFrom('written')
        .leftJoin('person', 'person.id', 'by_person')
        .select(['at', 'did', 'person.name as by'])
        .where('about', '=', what)
        .where('about_id', '=', id)
        .orderBy('written.id', 'desc')
        .limit(most)
        .execute(),
    removed: (what, most) =>
      db
        .selectFrom('written')
        .leftJoin('person', 'person.id', 'by_person')
        .select(['at', 'did', 'person.name as by'])
        .where('about', '=', what)
        .where('did', 'like', 'removed %')
        .orderBy('written.id', 'desc')
        .limit(most)
        .execute(),
    async isBy(person, what, did) {
      const row = await db
        .selectFrom('written')
        .select('id')
        .where('by_person', '=', person)
        .where('about', '=', what)
        .where('did', '=', did)
        .executeTakeFirst()
      return row !== undefined
    },
  }
}
