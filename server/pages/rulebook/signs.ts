/** The rulebook's page of signs: by what each kind is known, and how sure each sign is. */
import type { Knowledge } from '../../../shared/knowledge.js'
import { plainFrame } from '../layout/frame.js'
import type { EntryPage } from './rulebook-page.js'
import { item, section } from './rulebook-page.js'
import { sourceView } from '../layout/source-view.js'
import { inHundred, inThousand } from '../layout/words.js'

export function signsPage(knowledge: Knowledge): EntryPage {
  const { kinds, signs } = knowledge
  const usual = kinds.flatMap((kind) => (kind.usual === undefined ? [] : [{ ...kind, usual: kind.usual }]))
  const first = section('How usual each kind is', {
    text: 'Of the troubled tools of a shop, before anything is seen of one. A shop that works with other tools has another mix.',
    items: usual.map((kind) => item(kind.plainName, { note: inThousand(kind.usual / 1000) })),
  })
  return {
    frame: plainFrame('Signs', 'rulebook'),
    eyebrow: 'Rulebook',
    heading: 'Signs',
    lead: 'How to recognise each kind. Of 100 people who hold one of a kind, so many say yes; slips and odd makes are counted in.',
    back: { href: '/rulebook', name: 'Rulebook' },
    drawing: null,
    cautions: [],
    facts: [],
    source: null,
    sections: [
      ...(usual.length > 0 ? [first] : []),
      ...signs.map((sign) =>
        section(sign.text, {
          id: sign.id,
          text: sign.how ?? '',
          items: kinds.map((kind) =>
            item(kind.plainName, { note: `${inHundred(sign.kinds[kind.id] ?? 0.5)} say yes` }),
          ),
          after: sign.caution === undefined ? '' : `Caution: ${sign.caution}`,
          source: sourceView(knowledge, sign.source),
        }),
      ),
    ],
  }
}
