import type { Kysely, Migration } from 'kysely'
import { sql } from 'kysely'

/**
 * All tables of a shop on PostgreSQL, as the steps 001 to 009 left them in a file; later steps are the same for both.
 * Texts are compared byte by byte (collation "C"), as a file and the program do.
 */
export const postgresBegin: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    for (const statement of written.split(';')) await sql.raw(statement).execute(db)
  },
}

/** `line` is a text that is there, `line?` one that may be missing, `object` a text that is a JSON object. */
const written = `
create table person (
  id line primary key, name line, name_key line unique, role line, passphrase line?, since line
);
create table session (digest line primary key, person_id line references person on delete cascade, seen_at line);
create table door (digest line primary key, person_id line? references person on delete cascade, until line);

create table bench_case (
  id line primary key, kind line, tool line, begun_at line, changed_at line,
  state line default 'on-the-bench', words line?, outcome line?,
  event_count integer not null default 0, found_by line default ''
);
create table case_event (
  case_id line references bench_case, place integer not null, at line, event line,
  by_person line? references person on delete set null,
  primary key (case_id, place)
);
create index bench_case_changed on bench_case (changed_at);
create index bench_case_listed on bench_case (state, changed_at, id);
create index case_event_by on case_event (by_person);
create table shop ("only" integer primary key check ("only" = 1), record line, version integer not null default 1);
create table whose ("only" integer primary key check ("only" = 1), shop_id line);
insert into whose values (1, substr(md5(random()::text || clock_timestamp()::text), 1, 16));

create table practice_class (id line primary key, name line check (trim(name) <> ''), name_key line unique, since line);
create table learner (
  id line primary key, class_id line references practice_class, name line check (trim(name) <> ''),
  name_key line, since line, unique (class_id, name_key)
);
create table set_exercise (
  id line primary key, class_id line references practice_class, kind line, level line,
  seed bigint not null check (seed between 0 and 4294967295), setting object(setting), set_at line, closed_at line?
);
create table exercise (
  id line primary key, learner_id line references learner, kind line, level line,
  seed bigint not null check (seed between 0 and 4294967295), setting object(setting),
  set_id line? references set_exercise, begun_at line, changed_at line, unique (learner_id, set_id)
);
create table exercise_move (
  exercise_id line references exercise, place integer not null check (place between 0 and 399), at line,
  move object(move), primary key (exercise_id, place)
);
create table exercise_outcome (
  exercise_id line primary key references exercise, outcome object(outcome), score double precision
);
create table signed_off (
  learner_id line references learner, skill line check (trim(skill) <> ''),
  signed_by line check (trim(signed_by) <> ''), at line, primary key (learner_id, skill)
);
create table class_door (class_id line primary key references practice_class, word line unique, pin line);
create table lesson (
  id line primary key, class_id line references practice_class, started_at line, body object(body)
);
create index exercise_changed on exercise (learner_id, changed_at);
create index set_exercise_latest on set_exercise (class_id, set_at);
create index lesson_latest on lesson (class_id, started_at);

create table tool (id line primary key, name line, kind line, place line, details line, added_at line);
create table tool_move (
  tool_id line references tool on delete cascade, at line, place line, primary key (tool_id, at)
);
create table tool_case (
  case_id line primary key references bench_case on delete cascade,
  tool_id line references tool on delete cascade
);
create index tool_case_tool on tool_case (tool_id);
create table tool_photo (tool_id line primary key references tool on delete cascade, jpeg line);
create table care_done (
  id line primary key, batch line, tool_id line references tool on delete cascade, task line, day line, at line,
  who line, details line, undone_at line?
);
create index care_done_last on care_done (tool_id, task, day) where undone_at is null;
create index care_done_at on care_done (at, id);
create index care_done_task on care_done (task, day);
create index care_done_batch on care_done (batch);
create table part (id line primary key, name line, details line);
create table part_move (
  id line primary key, batch line, part_id line references part on delete cascade, at line,
  change double precision not null, why line, undone_at line?
);
create index part_move_part on part_move (part_id, at);
create index part_move_batch on part_move (batch);
create table shop_habits ("only" integer primary key check ("only" = 1), record line)`
  .replace(/\bobject\((\w+)\)/g, "line check (json_typeof($1::json) = 'object')")
  .replace(/\bline\?/g, 'text collate "C"')
  .replace(/\bline\b/g, 'text collate "C" not null')
