/** Signs: enough of them, and complete, so that each kind can be found by somebody who does not know it. */
import type { RulebookProblem } from '../../errors.js'
import { fileOf, listed, type Check } from '../rulebook.js'

const signForEveryKind: Check = {
  name: 'sign-for-every-kind',
  description: 'A sign gives a chance for every kind.',
  needs: ['kinds'],
  run: (book) =>
    book.knowledge.signs.flatMap(({ id, kinds }) => {
      const file = fileOf('signs', id)
      const without = book.knowledge.kinds.filter((kind) => kinds[kind.id] === undefined)
      return [
        ...without.map((kind) => ({
          file,
          field: 'kinds',
          message: `there is no chance for "${kind.id}"`,
          remedy: 'of 1000 people who hold one, how many would say yes? write that, as a share',
        })),
      ]
    }),
}

const signAfter: Check = {
  name: 'sign-after',
  description: 'A sign that is asked only after another names one that is asked of everybody.',
  needs: ['signs'],
  run: (book) =>
    book.knowledge.signs.flatMap(({ id, after }): RulebookProblem[] => {
      if (after === undefined) return []
      const [file, field] = [fileOf('signs', id), 'after.sign']
      const first = book.knowledge.signs.find((it) => it.id === after.sign)
      if (first?.after === undefined) return []
      return [
        {
          file,
          field,
          message: `${fileOf('signs', first.id)} is itself asked only after another`,
          remedy: 'name a sign that is asked of everybody',
        },
      ]
    }),
}

const runningSignWarns: Check = {
  name: 'running-sign-warns',
  description: 'A sign that needs the tool to run says how to do that without harm.',
  run: (book) =>
    book.knowledge.signs
      .filter(({ needsPower, caution }) => needsPower && caution === undefined)
      .map(({ id }) => ({
        file: fileOf('signs', id),
        field: 'caution',
        message: 'the tool runs for it, and no caution says what to mind',
        remedy: 'say where the hands are, for how long, and which tool must stay off',
      })),
}

/** As far apart as the chances of a yes must lie for a sign to tell two kinds apart. */
const apart = 0.5

const kindsToldApart: Check = {
  name: 'kinds-told-apart',
  description:
    'Each pair of kinds is told apart by a sign that shows on a tool at rest: one that may hurt is not run.',
  needs: ['kinds', 'signs'],
  run: (book) => {
    const { kinds, signs } = book.knowledge
    if (signs.length === 0) return []
    const atRest = signs.filter(({ needsPower }) => !needsPower)
    return kinds.flatMap((one, i) =>
      kinds
        .slice(i + 1)
        .filter(
          (other) =>
            !atRest.some((sign) => {
              const [p, q] = [sign.kinds[one.id], sign.kinds[other.id]]
              // a kind that is left out is another check's matter
              return p === undefined || q === undefined || Math.abs(p - q) >= apart
            }),
        )
        .map((other) => ({
          file: fileOf('kinds', other.id),
          field: '',
          message: `no sign that shows at rest tells it from "${one.id}"`,
          remedy: `add a file to rules/signs/ whose chances for the two lie at least ${apart} apart`,
        })),
    )
  },
}

/** What `usual` counts. */
const tools = 1000

const usualCounts: Check = {
  name: 'usual-counts',
  description: 'Where there are signs, every kind says how usual it is, and the kinds leave room for others.',
  needs: ['kinds'],
  run: (book) => {
    const { kinds, signs } = book.knowledge
    if (signs.length === 0) return []
    const silent = kinds.filter(({ usual }) => usual === undefined)
    const sum = kinds.reduce((total, { usual }) => total + (usual ?? 0), 0)
    return [
      ...silent.map(({ id }) => ({
        file: fileOf('kinds', id),
        field: 'usual',
        message: 'it does not say how usual the kind is',
        remedy: `of ${tools} troubled tools of a shop, how many are of this kind? write that number`,
      })),
      ...(sum < tools
        ? []
        : [
            {
              file: 'rules/kinds/',
              field: 'usual',
              message: `${listed(kinds.map(({ id }) => id))} sum to ${sum} of ${tools}`,
              remedy: 'lower one of them: some tools are of no kind at all',
            },
          ]),
    ]
  },
}

export const signChecks: readonly Check[] = [
  signForEveryKind,
  signAfter,
  runningSignWarns,
  kindsToldApart,
  usualCounts,
]
