import { createHash } from 'node:crypto'
import type { Kysely } from 'kysely'
import { Person } from '../../shared/person.js'
import { BadRequest, NotFound } from '../errors.js'
import type { PersonBook } from '../people/person-book.js'
import { nameKey } from '../register/name-key.js'

interface Tables {
  case_event: { by_person: string | null }
  written: { by_person: string | null }
  class_pass: { digest: string; learners: string; until: string }
  person: {
    id: string
    name: string
    name_key: string
    role: string
    passphrase: string | null
    since: string
  }
  session: { digest: string; person_id: string; seen_at: string }
  door: { digest: string; person_id: string | null; until: string }
}

/** @param newKey makes the id of somebody new; asked again when it is taken */
export function peopleBookIn(file: Kysely<unknown>, newKey: () => string): PersonBook {
  const db = file as Kysely<Tables>
  const rowOf = (id: string, from: Kysely<Tables> = db) =>
    from.selectFrom('person').selectAll().where('id', '=', id).executeTakeFirst()
  async function person(id: string, from: Kysely<Tables> = db): Promise<Person> {
    const row = await rowOf(id, from)
    if (!row) throw new NotFound('somebody of this name')
    return personFrom(row)
  }
  /** Writing first takes the lock of all leads: no two of them take each other's place away at the same moment. */
  const holdLeads = (within: Kysely<Tables>) =>
    within
      .updateTable('person')
      .set((is) => ({ role: is.ref('role') }))
      .where('role', '=', 'lead')
      .execute()
  /** Somebody must be able to let others in. */
  async function needLead(within: Kysely<Tables>): Promise<void> {
    const lead = await within.selectFrom('person').select('id').where('role', '=', 'lead').executeTakeFirst()
    if (!lead)
      throw new BadRequest('One lead at least has to stay: make somebody else a lead first.', {
        status: 422,
        field: 'role',
      })
  }

  return {
    async people() {
      const rows = await db.selectFrom('person').selectAll().orderBy('name_key').execute()
      return rows.map(personFrom)
    },
    person: (id) => person(id),
    async byName(name) {
      const row = await db
        .selectFrom('person')
        .selectAll()
        .where('name_key', '=', nameKey(name))
        .executeTakeFirst()
      return row ? { person: personFrom(row), passphrase: row.passphrase } : null
    },
    async add({ name: typed, role, at }) {
      const name = named(typed)
      for (;;) {
        const row = { id: newKey(), name, name_key: nameKey(name), role, since: at, passphrase: null }
        const { numInsertedOrUpdatedRows } = await db
          .insertInto('person')
          .values(row)
          .onConflict((taken) => taken.doNothing())
          .executeTakeFirst()
        if (numInsertedOrUpdatedRows === 1n) return personFrom(row)
        const there = await db
          .selectFrom('person')
          .select('id')
          .where('name_key', '=', row.name_key)
          .executeTakeFirst()
        if (there) throw taken(name)
      }
    },
    change: (id, { name: typed, role }) =>
      db.transaction().execute(async (within) => {
        const name = named(typed)
        const key = nameKey(name)
        await holdLeads(within)
        const other = await within
          .selectFrom('person')
          .select('id')
          .where('name_key', '=', key)
          .where('id', '!=', id)
          .executeTakeFirst()
        if (other) throw taken(name)
        await within.updateTable('person').set({ name, name_key: key, role }).where('id', '=', id).execute()
        const now = await person(id, within)
        await needLead(within)
        return now
      }),
    remove: (id) =>
      db.transaction().execute(async (within) => {
        await holdLeads(within)
        await person(id, within)
        await within.deleteFrom('person').where('id', '=', id).execute()
        await needLead(within)
      }),
    merge: (id, into) =>
      db.transaction().execute(async (within) => {
        await holdLeads(within)
        await person(id, within)
        await person(into, within)
        if (id === into) return
        for (const table of ['case_event', 'written'] as const)
          await within.updateTable(table).set({ by_person: into }).where('by_person', '=', id).execute()
        await within.deleteFrom('person').where('id', '=', id).execute()
        await needLead(within)
      }),
    keepPassphrase: (id, passphrase) =>
      db.transaction().execute(async (within) => {
        await within.updateTable('person').set({ passphrase }).where('id', '=', id).execute()
        await within.deleteFrom('session').where('person_id', '=', id).execute()
      }),

    async makeLink(code, forPerson, until) {
      // a new link for somebody makes the old one void
      const old = db.deleteFrom('door')
      await (
        forPerson === null ? old.where('person_id', 'is', null) : old.where('person_id', '=', forPerson)
      ).execute()
      await db
        .insertInto('door')
        .values({ digest: digestOf(code), person_id: forPerson, until })
        .execute()
    },
    async linkOf(code, now) {
      const row = await db
        .selectFrom('door')
        .select('person_id')
        .where('digest', '=', digestOf(code))
        .where('until', '>', now)
        .executeTakeFirst()
      return row?.person_id
    },
    async useLink(code) {
      const { numDeletedRows } = await db
        .deleteFrom('door')
        .where('digest', '=', digestOf(code))
        .executeTakeFirst()
      return numDeletedRows === 1n
    },

    async signIn(id, key, at) {
      await db
        .insertInto('session')
        .values({ digest: digestOf(key), person_id: id, seen_at: at })
        .execute()
    },
    async signedIn(key, now, after) {
      const digest = digestOf(key)
      const row = await db
        .selectFrom('session')
        .innerJoin('person', 'person.id', 'person_id')
        .selectAll('person')
        .select('seen_at')
        .where('digest', '=', digest)
        .where('seen_at', '>', after)
        .executeTakeFirst()
      if (!row) return null
      // once a day is enough to know that the device is still in use
      if (row.seen_at.slice(0, 10) !== now.slice(0, 10))
        await db.updateTable('session').set({ seen_at: now }).where('digest', '=', digest).execute()
      return personFrom(row)
    },
    async signOut(key) {
      await db.deleteFrom('session').where('digest', '=', digestOf(key)).execute()
    },
    async givePass(key, learners, now, until) {
      await db.deleteFrom('class_pass').where('until', '<=', now).execute()
      await db
        .insertInto('class_pass')
        .values({ digest: digestOf(key), learners: JSON.stringify(learners), until })
        .execute()
    },
    async passOf(key, now) {
      const row = await db
        .selectFrom('class_pass')
        .select('learners')
        .where('digest', '=', digestOf(key))
        .where('until', '>', now)
        .executeTakeFirst()
      return row ? (JSON.parse(row.learners) as string[]) : undefined
    },
    async signOutEverywhere(id) {
      await db.deleteFrom('session').where('person_id', '=', id).execute()
    },
  }
}

/** What a device shows is never in the file, so that a copy of the file lets nobody in. */
const digestOf = (key: string): string => createHash('sha256').update(key).digest('base64url')

const personFrom = ({
  id,
  name,
  role,
  since,
}: Pick<Tables['person'], 'id' | 'name' | 'role' | 'since'>): Person =>
  Person.parse({ id, name, role, since })

const taken = (name: string) =>
  new BadRequest(`There is somebody called “${name}” already; add a letter or a second name.`, {
    status: 422,
    field: 'name',
  })

function named(typed: string): string {
  const { success, data } = Person.shape.name.safeParse(typed)
  if (success && /[\p{L}\p{N}]/u.test(data)) return data
  throw new BadRequest('Say a name, of 80 letters at most.', { status: 422, field: 'name' })
}
