/**
 * The named errors. Each carries its data beside its text, so that a page, a problem document and a log
 * line can each say it in their own way. A user's mistake on a form is a value, not one of these.
 */

/** An error whose text is written for a person and may be shown as it stands; any other is a fault of ours. */
export abstract class PlainError extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = new.target.name
  }
}

/** What somebody asked for is not done, and nothing was changed; the text says why and what to do instead. */
export abstract class Refused extends PlainError {
  /** the HTTP status that a page or an answer of the API has */
  abstract readonly status: number
}

/** The server cannot start; the text says why and what to do. */
export class CannotStart extends PlainError {}

/** A value that cannot be used: where it is in what came in, and what to do. */
export interface ValueProblem {
  readonly path: readonly string[]
  readonly message: string
}

/** One mistake in the rulebook: where, what, and what to do about it. */
export interface RulebookProblem {
  /** path from the project's root, such as `rules/findings/brush-short.json` */
  readonly file: string
  /** path inside the file, such as `when.all[0].value`; empty when it is about the file as a whole */
  readonly field: string
  readonly message: string
  readonly remedy?: string
}

/** The rulebook cannot be used. Stops the server at start, never a request. Lists every problem found. */
export class KnowledgeError extends CannotStart {
  /**
   * @param problems every problem, in the order to show them; at least one
   * @param waiting  how many checks could not run because some file could not be read
   */
  constructor(
    readonly problems: readonly RulebookProblem[],
    readonly waiting = 0,
  ) {
    const lines = [
      `${counted(problems.length, 'problem')} in rules/:`,
      ...problems.map((it) => `  ${problemLine(it)}`),
    ]
    if (waiting > 0) {
      lines.push(
        `  (${counted(waiting, 'more check')} over the whole rulebook will run once every file can be read)`,
      )
    }
    super(lines.join('\n'))
  }
}

/** `rules/x.json: field: what is wrong; what to do` */
export function problemLine({ file, field, message, remedy }: RulebookProblem): string {
  return [file, field, remedy === undefined ? message : `${message}; ${remedy}`]
    .filter((it) => it !== '')
    .join(': ')
}

/** No case has this id: never begun, or its data folder is another one. Answered with 404. */
export class CaseNotFound extends Refused {
  readonly status = 404

  constructor(readonly caseId: string) {
    super(`There is no case "${caseId}"; open the list of cases and choose one there.`)
  }
}

/** No page, picture or rulebook entry has this address. Answered with 404. */
export class NotFound extends Refused {
  readonly status = 404

  /** @param what what was looked for, in words a person can read, such as `the cause "worn-brush"` */
  constructor(readonly what: string) {
    super(`There is no such thing here: ${what}.`)
  }
}

/** What came in cannot be read or makes no sense. `message` says what to send instead. */
export class BadRequest extends Refused {
  /** 400 malformed, 413 too big, 415 of another type, 422 well formed but not possible */
  readonly status: 400 | 413 | 415 | 422
  /** the field at fault, such as `answers.brush-length`, where there is one */
  readonly field: string | undefined

  constructor(message: string, about: { field?: string; status?: 400 | 413 | 415 | 422 } = {}) {
    super(message)
    this.status = about.status ?? 400
    this.field = about.field
  }
}

/**
 * The form was made for an earlier state of the case, or of the exercise, so nothing of it was stored. Answered
 * with 409.
 */
export class StaleForm extends Refused {
  readonly status = 409

  /** @param id of the case, of the exercise, or of the lesson's class */
  constructor(
    readonly id: string,
    what: 'case' | 'exercise' | 'lesson' = 'case',
  ) {
    super(
      `This ${what} has moved on since the page was opened, so nothing was changed; look at it again and ` +
        (what === 'case' ? 'answer there.' : 'go on from there.'),
    )
  }
}

/** Somebody else has changed the shop's figures since the page was opened. Answered with 409. */
export class StaleShop extends Refused {
  readonly status = 409

  constructor() {
    super('Somebody has changed the shop’s figures since you had seen them; look at them again.')
  }
}

/** A case of which something cannot be read back. It is left as it is. Answered with 409. */
export class UnreadableCase extends Refused {
  readonly status = 409

  /** @param place of the event, from 0 */
  constructor(
    readonly caseId: string,
    readonly place: number,
    options?: ErrorOptions,
  ) {
    super(
      `Entry ${place + 1} of case "${caseId}" is damaged and cannot be read. Do not go by what else it says: ` +
        'begin the tool again, or restore a backup. Nothing was changed.',
      options,
    )
  }
}

/** Nothing can be kept just now, for a reason outside the program; nothing was changed. */
export class StoreTrouble extends Refused {
  /** 503 another program holds the file, or it cannot be written; 507 no room */
  readonly status: 503 | 507

  constructor(message: string, status: 503 | 507, options?: ErrorOptions) {
    super(message, options)
    this.status = status
  }
}

/** Something was told that names what the rulebook does not have, or has a value out of its range. Answered with 422. */
export class UnknownToRulebook extends Refused {
  readonly status = 422

  /** @param problems every one of them, each with its place in what was told */
  constructor(readonly problems: readonly [ValueProblem, ...ValueProblem[]]) {
    super(problems.map(({ path, message }) => `${path.join('.')}: ${message}`).join('\n'))
  }
}

/** The case cannot take this as it stands, such as a fix while the tool is set aside. Answered with 409. */
export class NotAsItStands extends Refused {
  readonly status = 409
}

/** One setting of the environment that cannot be used. */
export interface SettingProblem {
  /** its name, such as `PORT` */
  readonly setting: string
  /** what it was set to */
  readonly value: string
  readonly message: string
  readonly remedy: string
}

/** Settings that cannot be used: the start stops and lists them all. */
export class BadSetting extends CannotStart {
  constructor(readonly problems: readonly SettingProblem[]) {
    super(
      [
        `${counted(problems.length, 'setting')} cannot be used:`,
        ...problems.map((it) => `  ${it.setting}="${it.value}": ${it.message}; ${it.remedy}`),
      ].join('\n'),
    )
  }
}

function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`
}
