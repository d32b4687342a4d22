import type SQLite from 'better-sqlite3'
import type { Kysely, Migration } from 'kysely'
import { DEFAULT_MIGRATION_TABLE, Migrator, sql } from 'kysely'
import { CannotStart } from '../../errors.js'
import { cases } from './001-cases.js'
import { shop } from './002-shop.js'
import { shopRecord } from './003-shop-record.js'
import { practice } from './004-practice.js'
import { tools } from './005-tools.js'
import { lessons } from './006-lessons.js'
import { caseList } from './006-case-list.js'
import { whose } from './007-whose.js'
import { people } from './008-people.js'
import { score } from './009-score.js'
import { written } from './010-written.js'
import { signedIn } from './011-signed-in.js'
import { postgresBegin } from './postgres-begin.js'

/** The steps that a file and a database have in common, oldest first. Written for both: no `strict`, no functions of one. */
const onBoth: Record<string, Migration> = { '010-written': written, '011-signed-in': signedIn }

/** Every step of the schema, oldest first. A name is never changed: a file remembers which ones it has had. */
const onFile: Record<string, Migration> = {
  '001-cases': cases,
  '002-shop': shop,
  '003-shop-record': shopRecord,
  '004-practice': practice,
  '005-tools': tools,
  '006-lessons': lessons,
  '006-case-list': caseList,
  '007-whose': whose,
  '008-people': people,
  '009-score': score,
  ...onBoth,
}
const onDatabase: Record<string, Migration> = { '009-postgres': postgresBegin, ...onBoth }

/** Their names: a file that has had others is of a newer version. */
export const knownMigrations: readonly string[] = Object.keys(onFile)

/**
 * Brings an opened file up to this program's schema, or leaves it as it was: Kysely runs the steps one by one with
 * SQLite, so one transaction stands around them all. It also keeps out a second program that opens the same file.
 *
 * @throws NewerFile when the file is ahead of this program
 */
export async function migrate(db: Kysely<unknown>, sqlite: SQLite.Database, file: string): Promise<void> {
  sqlite.exec('begin immediate')
  try {
    await stepOn(db, onFile, file)
    sqlite.exec('commit')
  } finally {
    if (sqlite.inTransaction) sqlite.exec('rollback')
  }
}

/**
 * The same for a shop on PostgreSQL, all steps in one transaction, one program at a time.
 *
 * @param db whose search path is `schema`
 */
export const migrateSchema = (db: Kysely<unknown>, schema: string): Promise<void> =>
  stepOn(db, onDatabase, `schema ${schema} of the database`, schema)

async function stepOn(
  db: Kysely<unknown>,
  migrations: Record<string, Migration>,
  where: string,
  schema?: string,
): Promise<void> {
  const unknown = (await appliedIn(db, schema)).filter((name) => !(name in migrations))
  if (unknown.length > 0) throw new NewerFile(where, unknown)
  const migrator = new Migrator({
    db,
    provider: { getMigrations: () => Promise.resolve(migrations) },
    // a step that another branch brings along may come before one that a file has had already
    allowUnorderedMigrations: true,
    ...(schema !== undefined && { migrationTableSchema: schema }),
  })
  const { error } = await migrator.migrateToLatest()
  if (error !== undefined) throw new Error(`The cases in ${where} could not be opened`, { cause: error })
}

/** The file was written by a later version of the program. */
export class NewerFile extends CannotStart {
  constructor(
    readonly file: string,
    readonly unknown: readonly string[],
  ) {
    super(
      `${file} was written by a newer version of this program (it has had ${unknown.join(', ')}); ` +
        'start that version, or choose another place with DATA_DIR or DATABASE_URL. Nothing in it was changed.',
    )
  }
}

async function appliedIn(db: Kysely<unknown>, schema?: string): Promise<string[]> {
  const tables = await db.introspection.getTables({ withInternalKyselyTables: true })
  if (!tables.some((it) => it.name === DEFAULT_MIGRATION_TABLE && it.schema === schema)) return []
  const { rows } = await sql<{
    name: string
  }>`select name from ${sql.table(DEFAULT_MIGRATION_TABLE)}`.execute(db)
  return rows.map(({ name }) => name)
}
