/** Causes: each can be noticed, confirmed, and dealt with. */
import { strengthIn } from '../../../shared/finding-rule.js'
import { causesOf, fileOf, listed, type Check, type Rulebook } from '../rulebook.js'

/**
 * P(finding | cause) from which a finding counts as confirming its cause. Method: a cause is confirmable
 * when a look or test shows it in about six of seven tools that have it; a workshop estimate, no source.
 */
const confirming = 0.85

const hasShare: Check = {
  name: 'cause-has-share',
  description: 'A cause has a share in at least one kind.',
  run: (book) =>
    book.knowledge.causes
      .filter(({ shares }) => Object.keys(shares).length === 0)
      .map(({ id }) => ({
        file: fileOf('causes', id),
        field: 'shares',
        message: 'it belongs to no kind',
        remedy: 'say in how many of 1000 troubled tools of a kind it is the main cause',
      })),
}

const pointedTo: Check = {
  name: 'cause-pointed-to',
  description: 'Some finding points to each cause, in every kind that has it.',
  needs: ['findings'],
  run: (book) =>
    perCause(book, (cause, kind) => strongest(book, cause, kind) === undefined).map(({ cause, kinds }) => ({
      file: fileOf('causes', cause),
      field: '',
      message: `no finding for ${listed(kinds)} points to it`,
      remedy: 'give it a strength in the findings that it shows itself by',
    })),
}

const confirmed: Check = {
  name: 'cause-confirmed',
  description: 'Each cause has a finding that confirms it, in every kind that has it.',
  needs: ['findings'],
  run: (book) =>
    perCause(book, (cause, kind) => (strongest(book, cause, kind) ?? 1) < confirming).map(
      ({ cause, kinds }) => ({
        file: fileOf('causes', cause),
        field: '',
        message: `nothing confirms it for ${listed(kinds)}: its strongest finding has ${strongest(book, cause, kinds[0]!)}`,
        remedy: `add a look or test that shows it with a strength of ${confirming} or more`,
      }),
    ),
}

const dealtWith: Check = {
  name: 'cause-dealt-with',
  description: 'Each cause has a fix in every kind that has it, or says why it is sent in.',
  needs: ['fixes'],
  run: (book) =>
    perCause(
      book,
      (cause, kind) =>
        book.causesById.get(cause)!.sendIn === undefined &&
        !book.knowledge.fixes.some((fix) => fix.kinds.includes(kind) && fix.cures[cause] !== undefined),
    ).map(({ cause, kinds }) => ({
      file: fileOf('causes', cause),
      field: 'sendIn',
      message: `no fix for ${listed(kinds)} cures it, and nothing says when it goes to a service`,
      remedy: 'add a fix that cures it, or sendIn',
    })),
}

const exclusiveEnds: Check = {
  name: 'exclusive-ends',
  description:
    'A cause that excludes all others has a fix that ends with "nothing-found", and no other cause has.',
  needs: ['fixes'],
  run: (book) => [
    ...perCause(
      book,
      (cause, kind) =>
        book.causesById.get(cause)!.exclusive &&
        !book.knowledge.fixes.some((fix) => endsFor(fix, cause) && fix.kinds.includes(kind)),
    ).map(({ cause, kinds }) => ({
      file: fileOf('causes', cause),
      field: 'exclusive',
      message: `no fix for ${listed(kinds)} cures it and ends the work`,
      remedy: 'set "ends": "nothing-found" in the fix that cures it',
    })),
    ...book.knowledge.fixes.flatMap((fix) =>
      Object.keys(fix.cures)
        .filter((cause) => endsFor(fix, cause) && book.causesById.get(cause)?.exclusive === false)
        .map((cause) => ({
          file: fileOf('fixes', fix.id),
          field: 'ends',
          message: `it ends with nothing found, yet cures ${fileOf('causes', cause)}, which is something`,
          remedy: 'remove ends, or that cause',
        })),
    ),
  ],
}

const oneExclusive: Check = {
  name: 'one-exclusive',
  description: 'A kind has at most one cause that excludes all others.',
  run: (book) =>
    book.knowledge.kinds.flatMap((kind) =>
      causesOf(book, kind.id)
        .filter((it) => it.exclusive)
        .slice(1)
        .map((cause) => ({
          file: fileOf('causes', cause.id),
          field: 'exclusive',
          message: `${kind.id} has another cause that excludes all others`,
          remedy: 'keep one of them',
        })),
    ),
}

function endsFor(fix: Rulebook['knowledge']['fixes'][number], cause: string): boolean {
  return fix.ends === 'nothing-found' && fix.cures[cause] !== undefined
}

/** Highest strength of any finding of the kind for the cause; undefined when none points to it. */
function strongest(book: Rulebook, cause: string, kind: string): number | undefined {
  const strengths = book.knowledge.findings
    .filter((it) => it.kinds.includes(kind))
    .map((it) => strengthIn(it, cause, kind))
    .filter((it) => it !== undefined)
  return strengths.length === 0 ? undefined : Math.max(...strengths)
}

/** Each cause with the kinds in which something is wrong with it, where there are any. */
function perCause(book: Rulebook, isWrong: (cause: string, kind: string) => boolean) {
  return book.knowledge.causes
    .map(({ id, shares }) => ({ cause: id, kinds: Object.keys(shares).filter((kind) => isWrong(id, kind)) }))
    .filter(({ kinds }) => kinds.length > 0)
}

export const causeChecks: readonly Check[] = [
  hasShare,
  pointedTo,
  confirmed,
  dealtWith,
  exclusiveEnds,
  oneExclusive,
]
