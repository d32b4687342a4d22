/** Who works here: you, and for a lead everybody. */
import type { Person, Role } from '../../../shared/person.js'
import type { Problem } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'

export interface PeoplePage {
  readonly frame: Frame
  /** null where nobody signs in */
  readonly you: { readonly name: string; readonly role: string } | null
  /** for a lead; null for others */
  readonly people:
    | readonly {
        readonly action: string
        readonly name: string
        readonly role: string
        /** who else they may be, written twice */
        readonly others: readonly { readonly id: string; readonly name: string }[]
        readonly roles: readonly { readonly value: Role; readonly words: string; readonly chosen: boolean }[]
      }[]
    | null
  readonly roles: readonly { readonly value: Role; readonly words: string }[]
  /** a link that was just made: shown once, for whoever it is for */
  readonly link: { readonly name: string; readonly address: string } | null
  /** was your passphrase changed just now? */
  readonly changed: boolean
  /** may this device go to another shop of the same database? */
  readonly severalShops: boolean
  readonly problems: readonly Problem[]
}

const roleWords: Readonly<Record<Role, string>> = {
  learner: 'Learner: practises',
  barber: 'Barber: works on tools',
  lead: 'Lead: also ends cases, figures, people',
}
const roles = (Object.keys(roleWords) as Role[]).map((value) => ({ value, words: roleWords[value] }))

export function peoplePage(
  you: Person | null,
  people: readonly Person[],
  {
    link = null,
    changed = false,
    severalShops = false,
    problems = [],
  }: Partial<Pick<PeoplePage, 'link' | 'changed' | 'severalShops' | 'problems'>> = {},
): PeoplePage {
  return {
    frame: plainFrame('People', 'shop'),
    you: you && { name: you.name, role: roleWords[you.role] },
    people:
      you?.role === 'lead'
        ? people.map(({ id, name, role }) => ({
            action: `/people/${id}`,
            name,
            role: roleWords[role],
            others: people.filter((other) => other.id !== id),
            roles: roles.map((it) => ({ ...it, chosen: it.value === role })),
          }))
        : null,
    roles,
    link,
    changed,
    severalShops,
    problems,
  }
}
