/** Slips of practice: over facts of the bench, with values that they can have, in every kind that has something to open. */
import { asFor } from '../../../shared/book-of-kind.js'
import { comparisonsOf } from '../../../shared/conditions.js'
import type { Folder, Slip } from '../../../shared/knowledge.js'
import type { RulebookProblem } from '../../errors.js'
import { canHold, type Domain } from '../satisfiable.js'
import { fileOf, listed, missing, type Check, type Rulebook } from '../rulebook.js'

const yesNo: Domain = { values: ['yes', 'no'] }

/** The move that is about to be made, and how things stand before it. */
const plainFacts: Readonly<Record<string, Domain>> = {
  move: {
    values: [
      'stand',
      'put-back',
      'look',
      'fix',
      'disinfect',
      'make-safe',
      'dare',
      'hand-back',
      'send-in',
      'set-aside',
    ],
  },
  power: yesNo,
  disinfected: yesNo,
  mended: yesNo,
  stopped: yesNo,
  'danger-looked': yesNo,
}
/** Facts whose values are ids of a folder. */
const idFacts = { step: 'steps', fix: 'fixes', act: 'slips' } as const satisfies Record<string, Folder>

/** Facts that are a prefix and an id: is it needed, to be set up now, standing, true, told, holding? */
const families: readonly { readonly prefix: string; readonly folder: Folder; readonly domain: Domain }[] = [
  { prefix: 'needs-', folder: 'setups', domain: yesNo },
  { prefix: 'sets-up-', folder: 'setups', domain: yesNo },
  { prefix: 'stands-', folder: 'setups', domain: yesNo },
  { prefix: 'shows-', folder: 'findings', domain: yesNo },
  { prefix: 'told-', folder: 'findings', domain: { values: ['yes', 'no', 'cant-tell', 'unknown'] } },
  { prefix: 'holds-', folder: 'stops', domain: yesNo },
]

const familyOf = (fact: string) => families.find(({ prefix }) => fact.startsWith(prefix))

/** What a fact can be; undefined for one that there is not. */
function domainOf(book: Rulebook, fact: string): Domain | undefined {
  if (fact in idFacts) {
    const folder = idFacts[fact as keyof typeof idFacts]
    return { values: ['none', ...book.ids.get(folder)!] }
  }
  return plainFacts[fact] ?? familyOf(fact)?.domain
}

const slipFacts: Check = {
  name: 'slip-facts',
  description:
    'A slip is over facts of the bench, about things that there are, with values that they can have.',
  needs: ['setups', 'steps', 'fixes', 'findings', 'stops', 'slips'],
  run: (book) =>
    book.knowledge.slips.flatMap((slip) =>
      comparisonsOf(slip.when).flatMap((it): RulebookProblem[] => {
        const file = fileOf('slips', slip.id)
        const domain = domainOf(book, it.fact)
        if (domain === undefined) {
          const known = [
            ...Object.keys(plainFacts),
            ...Object.keys(idFacts),
            ...families.map(({ prefix }) => `${prefix}…`),
          ]
          const message = `"${it.fact}" is no fact of the bench`
          return [{ file, field: 'when', message, remedy: `use one of ${known.join(', ')}` }]
        }
        const family = familyOf(it.fact)
        const gone = family
          ? missing(book, family.folder, it.fact.slice(family.prefix.length), file, 'when')
          : []
        if (gone.length > 0 || canHold(it, () => domain)) return gone
        const message = `"${it.fact}" is never ${it.operator} ${JSON.stringify(it.value)}`
        const remedy =
          it.fact in idFacts
            ? `name a file of rules/${idFacts[it.fact as keyof typeof idFacts]}/`
            : `it is one of ${'values' in domain ? domain.values.join(', ') : ''}`
        return [{ file, field: 'when', message, remedy }]
      }),
    ),
}

const slipCanHold: Check = {
  name: 'slip-can-hold',
  description: 'The when of a slip does not contradict itself.',
  needs: ['steps', 'fixes', 'slips'],
  run: (book) =>
    book.knowledge.slips
      .filter(({ when }) => {
        const of = (fact: string) => domainOf(book, fact)
        return comparisonsOf(when).every((it) => canHold(it, of)) && !canHold(when, of)
      })
      .map(({ id }) => ({
        file: fileOf('slips', id),
        field: 'when',
        message: 'it can never hold: its parts contradict each other',
        remedy: 'use "any" where one of them is enough',
      })),
}

/** Acts that a slip waits for. */
const actsOf = ({ when }: Slip): string[] =>
  comparisonsOf(when).flatMap(({ fact, value }) => (fact === 'act' ? value : []) as string[] | string)

const offeredAct: Check = {
  name: 'slip-offered-act',
  description:
    'A bad habit that a slip offers is what it waits for, and no slip waits for one that is not offered.',
  run: (book) =>
    book.knowledge.slips.flatMap((slip): RulebookProblem[] => {
      const file = fileOf('slips', slip.id)
      const acts = actsOf(slip)
      const unoffered = acts.filter(
        (act) =>
          book.ids.get('slips')!.has(act) &&
          !book.knowledge.slips.some(({ id, offers }) => id === act && offers),
      )
      return [
        ...unoffered.map((act) => ({
          file,
          field: 'when',
          message: `nobody can do "${act}": ${fileOf('slips', act)} offers nothing`,
          remedy: 'say in its "offers" what the bench offers',
        })),
        ...(slip.offers === undefined || acts.includes(slip.id)
          ? []
          : [
              {
                file,
                field: 'offers',
                message: 'whoever does what it offers makes no slip',
                remedy: `compare the fact "act" with "${slip.id}" in "when"`,
              },
            ]),
      ]
    }),
}

const openingGuarded: Check = {
  name: 'opening-guarded',
  description:
    'Where there are slips, opening the body of a kind before what it needs stands is one that ends the exercise.',
  needs: ['setups', 'slips'],
  run: (book) => {
    const { kinds, setups, slips } = book.knowledge
    if (slips.length === 0) return []
    return kinds.flatMap((kind) =>
      setups
        .filter((it) => it.kinds.includes(kind.id))
        .map((it) => asFor(it, kind.id))
        .filter(({ opensBody, opensCase }) => opensBody || opensCase)
        .filter(
          ({ id }) =>
            !slips.some(
              (slip) =>
                slip.grade === 'ends' &&
                slip.kinds.includes(kind.id) &&
                comparisonsOf(slip.when).some(({ fact }) => fact === `sets-up-${id}`),
            ),
        )
        .map(({ id }) => ({
          file: fileOf('kinds', kind.id),
          field: '',
          message: `no slip ends an exercise when somebody gets to "${id}" without what must stand first`,
          remedy: `add a file to rules/slips/ over "sets-up-${id}" and the set-ups that it needs`,
        })),
    )
  },
}

const levelsRise: Check = {
  name: 'levels-rise',
  description: 'Levels have an order each and a name each, so that a learner knows which is the next.',
  run: (book) =>
    book.knowledge.levels.flatMap((level, i): RulebookProblem[] => {
      const same = book.knowledge.levels
        .slice(0, i)
        .filter((it) => it.order === level.order || it.name === level.name)
      if (same.length === 0) return []
      const file = fileOf('levels', level.id)
      const field = same[0]!.order === level.order ? 'order' : 'name'
      const message = `${listed(same.map((it) => fileOf('levels', it.id)))} has the same`
      return [{ file, field, message, remedy: 'give it another' }]
    }),
}

export const slipChecks: readonly Check[] = [slipFacts, slipCanHold, offeredAct, openingGuarded, levelsRise]
