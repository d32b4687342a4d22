/** Every id that a file mentions is the id of something. */
import type { RulebookProblem } from '../../errors.js'
import { asFor } from '../../../shared/book-of-kind.js'
import { folderNames, folders } from '../../../shared/knowledge.js'
import type { NamedId } from '../../../shared/named-ids.js'
import { idsNamed } from '../../../shared/named-ids.js'
import { fieldPath } from '../file-problems.js'
import { fileOf, missing, type Check, type Rulebook } from '../rulebook.js'

/** What a file names is there. The facts of a condition are told with the rule that they are in. */
const namedThere: Check = {
  name: 'named-there',
  description:
    'Whatever a file names by its id is there: kinds, causes, set-ups, questions, sources and so on.',
  run: (book) =>
    folderNames.flatMap((folder) =>
      (book.knowledge[folder] as readonly { readonly id: string }[]).flatMap((entry) =>
        idsNamed(folders[folder], entry)
          .filter(({ path }) => path.at(-1) !== 'fact')
          .flatMap((named) => problemOf(book, named, fileOf(folder, entry.id))),
      ),
    ),
}

function problemOf(book: Rulebook, { id, list, path }: NamedId, file: string): RulebookProblem[] {
  const field = fieldPath(path)
  switch (list) {
    case 'questions':
      if (book.askedById.has(id) || [...book.unreadable].some((name) => /^(steps|fixes)\//.test(name)))
        return []
      return [
        {
          file,
          field,
          message: `no step or fix asks a question "${id}"`,
          remedy: 'correct the name or add the question to a step',
        },
      ]
    case 'sources':
      if (Object.hasOwn(book.knowledge.sources, id) || book.unreadable.has('sources')) return []
      return [
        {
          file,
          field,
          message: `rules/sources.json has no "${id}"`,
          remedy: `add it there or use one of ${Object.keys(book.knowledge.sources).join(', ')}`,
        },
      ]
    case 'drawings':
      if (book.drawings === undefined || book.drawings.has(id)) return []
      return [
        {
          file,
          field,
          message: `there is no views/partials/drawings/${id}.ejs`,
          remedy: 'draw it or correct the name',
        },
      ]
    case 'parts':
      // a part is one of a kind: that is another check's matter
      return []
    case 'steps-or-fixes':
      return book.ids.get('steps')!.has(id) ? [] : missing(book, 'fixes', id, file, field)
    default:
      return missing(book, list, id, file, field)
  }
}

const knownFirst: Check = {
  name: 'known-first',
  description: 'A question that must be answered before a step or fix is offered is asked in another step.',
  needs: ['steps'],
  run: (book) =>
    (['steps', 'fixes'] as const).flatMap((folder) =>
      book.knowledge[folder].flatMap(({ id, first }) =>
        first.flatMap((question, i) => {
          if (!book.askedById.has(question)) return []
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

export const referenceChecks: readonly Check[] = [namedThere, knownFirst, knownParts, partsDrawn]
