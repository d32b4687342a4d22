/** Which card: the kind, then the complaint. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge, Question } from '../../../shared/knowledge.js'
import { itemView } from '../../forms/answer-form.js'
import { tellable } from '../../statements/statements.js'
import { groupsOf } from '../case/complaint-page.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { counted } from '../layout/words.js'

export interface CardsPage {
  readonly frame: Frame
  readonly kinds: readonly {
    readonly name: string
    readonly plainName: string
    readonly href: string
    readonly here: boolean
  }[]
  /** null until a kind is chosen */
  readonly chosen: {
    readonly name: string
    readonly common: readonly CardLink[]
    readonly others: readonly {
      readonly heading: string
      readonly count: string
      readonly links: readonly CardLink[]
    }[]
  } | null
}

interface CardLink {
  readonly name: string
  readonly href: string
}

export const cardsPath = '/practice/cards'
const cardPath = (kind: string, complaint: string): string => `${cardsPath}/${kind}/${complaint}`

/** Complaints of a kind that have a card: what people tell unasked, danger signs left out. */
export const complaintsOf = (
  knowledge: Knowledge,
  kind: string,
  dangers: ReadonlySet<string>,
): readonly Question[] => tellable(bookOf(knowledge, kind), kind).filter(({ id }) => !dangers.has(id))

/**
 * @param kind   chosen; null on the first look
 * @param common ids of its commonest complaints, commonest first
 */
export function cardsPage(
  knowledge: Knowledge,
  kind: string | null,
  common: readonly string[],
  dangers: ReadonlySet<string>,
): CardsPage {
  const { kinds } = lookupOf(knowledge)
  const chosen = kind === null ? undefined : kinds.get(kind)
  return {
    frame: plainFrame(chosen ? `Cards: ${chosen.name}` : 'Cards for a bench without a screen', 'practice'),
    kinds: knowledge.kinds.map(({ id, name, plainName }) => ({
      name,
      plainName,
      href: `${cardsPath}?kind=${id}#cards`,
      here: id === kind,
    })),
    chosen: chosen ? { name: chosen.plainName, ...linksOf(knowledge, chosen.id, common, dangers) } : null,
  }
}

function linksOf(
  knowledge: Knowledge,
  kind: string,
  common: readonly string[],
  dangers: ReadonlySet<string>,
) {
  const all = complaintsOf(knowledge, kind, dangers)
  const link = ({ id, statement }: Pick<Question, 'id' | 'statement'>): CardLink => ({
    name: statement,
    href: cardPath(kind, id),
  })
  const others = all
    .filter(({ id }) => !common.includes(id))
    .map((question) => itemView(question, undefined, null))
  return {
    common: common.flatMap((id) => all.filter((question) => question.id === id).map(link)),
    others: groupsOf(all, others).map(({ heading, items }) => ({
      heading,
      count: counted(items.length, 'card'),
      links: items.map(link),
    })),
  }
}
