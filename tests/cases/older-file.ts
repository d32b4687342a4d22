/** Files as earlier versions of the program left them. */
import type SQLite from 'better-sqlite3'

const ofPractice = [
  'signed_off',
  'exercise_outcome',
  'exercise_move',
  'exercise',
  'set_exercise',
  'learner',
  'practice_class',
]

const ofTools = [
  'shop_habits',
  'part_move',
  'part',
  'care_done',
  'tool_photo',
  'tool_case',
  'tool_move',
  'tool',
]

/** As it was before a shop's tools were kept. */
function withoutTools(sqlite: SQLite.Database): void {
  for (const table of ofTools) sqlite.exec(`drop table ${table}`)
  sqlite.prepare("delete from kysely_migration where name = '005-tools'").run()
}

/** As it was before the list had columns of its own. */
function withoutList(sqlite: SQLite.Database): void {
  sqlite.exec(`
    alter table exercise_outcome drop column score;
    alter table case_event add column type text generated always as (json_extract(event, '$.type'));
    create index case_event_type on case_event (type);
    delete from kysely_migration where name = '009-score'`)
  sqlite.exec('alter table case_event drop column by_person')
  for (const table of ['door', 'session', 'person']) sqlite.exec(`drop table ${table}`)
  sqlite.prepare("delete from kysely_migration where name = '008-people'").run()
  sqlite.exec('drop table whose')
  sqlite.prepare("delete from kysely_migration where name = '007-whose'").run()
  sqlite.exec('drop index bench_case_listed')
  for (const column of ['state', 'words', 'outcome', 'event_count', 'found_by'])
    sqlite.exec(`alter table bench_case drop column ${column}`)
  sqlite.exec('alter table shop drop column version')
  sqlite.prepare("delete from kysely_migration where name = '006-case-list'").run()
  // nor did a file say whose it is
  sqlite.pragma('application_id = 0')
}

/** As it was before there was any practice; what was told of cases and shop stays. */
export function withoutPractice(sqlite: SQLite.Database): void {
  withoutList(sqlite)
  withoutTools(sqlite)
  for (const table of ofPractice) sqlite.exec(`drop table ${table}`)
  sqlite.prepare("delete from kysely_migration where name = '004-practice'").run()
}

/** As it was when a shop's figures were sums in major units. */
export function withSumsOfTheShop(sqlite: SQLite.Database): void {
  withoutPractice(sqlite)
  sqlite.exec('alter table shop rename column record to figures')
  sqlite.prepare("delete from kysely_migration where name = '003-shop-record'").run()
}
