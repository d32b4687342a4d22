/** Every id that a file mentions is the id of something. */
import type { RulebookProblem } from '../../errors.js'
import { asFor } from '../../../shared/book-of-kind.js'
import type { Folder } from '../../../shared/knowledge.js'
import { fileOf, missing, type Check, type Rulebook } from '../rulebook.js'

const withKinds = [
  'setups',
  'findings',
  'steps',
  'fixes',
  'stops',
  'relevance',
  'care',
  'verdicts',
  'papers',
  'slips',
  'chains',
  'hearsay',
] as const

const knownKinds: Check = {
  name: 'known-kinds',
  description: 'A kind that a file names has its file in rules/kinds/.',
  run: (book) => [
    ...withKinds.flatMap((folder) =>
      book.knowledge[folder].flatMap(({ id, kinds }) =>
        kinds.flatMap((kind, i) => missing(book, 'kinds', kind, fileOf(folder, id), `kinds[${i}]`)),
      ),
    ),
    ...keysOf(book, 'causes', (it) => it.shares, 'kinds', 'shares'),
    ...book.knowledge.findings.flatMap(({ id, strengths }) =>
      Object.entries(strengths).flatMap(([cause, strength]) =>
        typeof strength === 'number'
          ? []
          : Object.keys(strength).flatMap((kind) =>
              missing(book, 'kinds', kind, fileOf('findings', id), `strengths.${cause}.${kind}`),
            ),
      ),
    ),
  ],
}

const knownCauses: Check = {
  name: 'known-causes',
  description:
    'A cause that a finding points to, a fix cures or care prevents has its file in rules/causes/.',
  run: (book) => [
    ...keysOf(book, 'findings', (it) => it.strengths, 'causes', 'strengths'),
    ...keysOf(book, 'fixes', (it) => it.cures, 'causes', 'cures'),
    ...listsOf(book, 'care', (it) => it.prevents, 'causes', 'prevents'),
  ],
}

const knownSetups: Check = {
  name: 'known-setups',
  description: 'A set-up that a step, a fix or another set-up needs has its file in rules/setups/.',
  run: (book) => [
    ...listsOf(book, 'steps', (it) => it.setups, 'setups', 'setups'),
    ...listsOf(book, 'fixes', (it) => it.setups, 'setups', 'setups'),
    ...listsOf(book, 'setups', (it) => it.needs, 'setups', 'needs'),
  ],
}

const knownCare: Check = {
  name: 'known-care',
  description: 'A care task that a fix names for afterwards has its file in rules/care/.',
  run: (book) => listsOf(book, 'fixes', (it) => it.afterwards, 'care', 'afterwards'),
}

const knownHidden: Check = {
  name: 'known-hidden',
  description: 'What a relevance rule hides exists: questions that are asked, fixes with a file.',
  needs: ['steps', 'fixes'],
  run: (book) => [
    ...listsOf(book, 'relevance', (it) => it.hides.fixes, 'fixes', 'hides.fixes'),
    ...book.knowledge.relevance.flatMap(({ id, hides }) =>
      hides.questions.flatMap((question, i) =>
        book.askedById.has(question)
          ? []
          : [
              {
                file: fileOf('relevance', id),
                field: `hides.questions[${i}]`,
                message: `no step or fix asks a question "${question}"`,
                remedy: 'correct the name or add the question to a step',
              },
            ],
      ),
    ),
  ],
}

const knownFirst: Check = {
  name: 'known-first',
  description: 'A question that must be answered before a step or fix is offered is asked in another step.',
  needs: ['steps'],
  run: (book) =>
    (['steps', 'fixes'] as const).flatMap((folder) =>
      book.knowledge[folder].flatMap(({ id, first }) =>
        first.flatMap((question, i) => {
          const elsewhere = book.knowledge.steps.some(
            (step) => step.id !== id && step.questions.some((it) => it.id === question),
          )
          if (elsewhere) return []
          return [
            {
              file: fileOf(folder, id),
              field: `first[${i}]`,
              message: `no other step asks a question "${question}"`,
              remedy: 'correct the name or add the question to a step',
            },
          ]
        }),
      ),
    ),
}

const knownParts: Check = {
  name: 'known-parts',
  description: "A cause's part is a part of every kind that can have the cause.",
  needs: ['kinds'],
  run: (book) =>
    book.knowledge.causes.flatMap((cause) =>
      book.knowledge.kinds
        .filter(({ id }) => cause.shares[id] !== undefined)
        .map((kind) => ({ kind, part: asFor(cause, kind.id).part }))
        .filter(({ kind, part }) => !kind.parts.some((it) => it.id === part))
        .map(({ kind, part }) => ({
          file: fileOf('causes', cause.id),
          field: cause.forKind?.[kind.id]?.part === undefined ? 'part' : `forKind.${kind.id}.part`,
          message: `${fileOf('kinds', kind.id)} has no part "${part}"`,
          remedy: `use one of ${kind.parts.map((it) => it.id).join(', ')}, or add the part there`,
        })),
    ),
}

const knownDrawings: Check = {
  name: 'known-drawings',
  description: 'A drawing that a kind, step, fix or sign names is there.',
  run: (book) =>
    (['kinds', 'steps', 'fixes', 'signs'] as const).flatMap((folder) =>
      book.knowledge[folder].flatMap(({ id, drawing }) =>
        drawing === undefined || book.drawings === undefined || book.drawings.has(drawing)
          ? []
          : [
              {
                file: fileOf(folder, id),
                field: 'drawing',
                message: `there is no views/partials/drawings/${drawing}.ejs`,
                remedy: 'draw it or correct the name',
              },
            ],
      ),
    ),
}

const partsDrawn: Check = {
  name: 'parts-drawn',
  description:
    'The parts of a kind are drawn, each with a place for its label: that is where suspicion is hatched.',
  run: (book) =>
    book.knowledge.kinds.flatMap(({ id, drawing, parts }) => {
      if (book.partsDrawn === undefined) return []
      const file = fileOf('kinds', id)
      const shown = book.partsDrawn.get(drawing)
      const beside = `views/partials/drawings/parts/${drawing}`
      if (!shown) {
        const message = `there is no ${beside}.json with its parts`
        return [
          { file, field: 'drawing', message, remedy: `draw them in ${beside}.ejs and say where labels go` },
        ]
      }
      return parts.flatMap((part, i) =>
        shown.has(part.id)
          ? []
          : [
              {
                file,
                field: `parts[${i}].id`,
                message: `${beside}.json has no place for "${part.id}"`,
                remedy: `draw it in ${beside}.ejs and say there where its label goes`,
              },
            ],
      )
    }),
}

type EntryOf<F extends Folder> = Rulebook['knowledge'][F][number]

/** Each key of a map in each file of a folder must be the id of something in the target folder. */
function keysOf<F extends Folder>(
  book: Rulebook,
  folder: F,
  pick: (entry: EntryOf<F>) => Readonly<Record<string, unknown>>,
  target: Folder,
  field: string,
): RulebookProblem[] {
  return (book.knowledge[folder] as readonly EntryOf<F>[]).flatMap((entry) =>
    Object.keys(pick(entry)).flatMap((id) =>
      missing(book, target, id, fileOf(folder, entry.id), `${field}.${id}`),
    ),
  )
}

/** Each item of a list in each file of a folder must be the id of something in the target folder. */
function listsOf<F extends Folder>(
  book: Rulebook,
  folder: F,
  pick: (entry: EntryOf<F>) => readonly string[],
  target: Folder,
  field: string,
): RulebookProblem[] {
  return (book.knowledge[folder] as readonly EntryOf<F>[]).flatMap((entry) =>
    pick(entry).flatMap((id, i) => missing(book, target, id, fileOf(folder, entry.id), `${field}[${i}]`)),
  )
}

export const referenceChecks: readonly Check[] = [
  knownKinds,
  knownCauses,
  knownSetups,
  knownCare,
  knownHidden,
  knownFirst,
  knownParts,
  knownDrawings,
  partsDrawn,
]
