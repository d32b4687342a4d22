import type { Outlook } from '../../../shared/diagnosis.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { cutsPower } from '../../../shared/setups-needed.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import type { Fact } from './next-words.js'
import type { OnBench } from '../../bench/on-bench.js'
import { likeliestWords } from './so-far.js'
import type { SecondLook } from './second-look.js'
import { secondLook } from './second-look.js'
import type { StopBand } from './stop-page.js'
import { stopBands } from './stop-page.js'
import type { Suspects } from './suspects.js'
import { suspectsView } from './suspects.js'
import { aboutMoneyIn, moneyIn } from '../layout/money.js'
import { days, inHundred, minutes } from '../layout/words.js'

/** Send it in, or set it aside for good. */
export interface EndingPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly state: 'boxed-for-service' | 'set-aside'
  readonly title: string
  readonly lead: string
  /** how it is left: nobody is to find it plugged in on the bench */
  readonly leave: string
  readonly secondLook: SecondLook | null
  readonly why: readonly { readonly name: string; readonly words: string }[]
  readonly facts: readonly Fact[]
  readonly money: string
  /** where the three ways out are compared */
  readonly worth: string
  readonly slip: string | null
  readonly button: string
  /** going on all the same: what it takes and how often it changes the end; null where nothing is left to look at */
  readonly further: { readonly action: string; readonly words: string } | null
  /** whether there is a step or fix that was said not to be possible here, to take back */
  readonly answers: string
  readonly bands: readonly StopBand[]
  readonly suspects: Suspects
}

/** The causes to give a reason for: those with at least this share, at most three. */
const worthAReason = 0.05

/** Why no more is tried here, what sending in costs and how long it takes. */
export function endingPage(on: OnBench): EndingPage {
  const { knowledge, bench, shop, assessment, currency } = on
  const { step, outlook } = assessment.next
  const sendIn = (step === 'offer' ? outlook?.ending : step) === 'send-in'
  const title = sendIn ? 'Send it in' : 'Retire it'
  return {
    frame: caseFrame(knowledge, bench, title, { at: '' }),
    action: `/cases/${bench.id}/finish`,
    seen: bench.events.length,
    state: sendIn ? 'boxed-for-service' : 'set-aside',
    title,
    lead: sendIn ? likeliestWords(on) : 'Neither a fix here nor a service is worth its cost.',
    leave: `${on.knowledge.setups.find(cutsPower)?.name ?? 'No power'}. Tag it: do not use.`,
    secondLook: secondLook(on),
    why: reasons(on),
    facts: sendIn
      ? [
          { term: 'Costs', words: aboutMoneyIn(shop.sendIn, currency) },
          { term: 'Gone for', words: days(shop.turnaroundDays) },
          ...(shop.dayWithout > 0
            ? [{ term: 'A day without it', words: aboutMoneyIn(shop.dayWithout, currency) }]
            : []),
        ]
      : [{ term: 'A new one', words: aboutMoneyIn(shop.replace, currency) }],
    money: `A minute at the bench counts as ${moneyIn(shop.rate, currency)}.`,
    worth: `/cases/${bench.id}/worth`,
    slip: sendIn ? `/cases/${bench.id}/slip` : null,
    button: sendIn ? 'Send it in' : 'Set it aside',
    further: step === 'offer' && outlook ? furtherLook(bench.id, outlook) : null,
    answers: `/cases/${bench.id}/answers`,
    bands: stopBands(on),
    suspects: suspectsView(on),
  }
}

/** "Looking further takes about 4 minutes and changes that in 1 of 6." */
const furtherLook = (id: string, { minutes: spent, changes }: Outlook): EndingPage['further'] => ({
  action: `/cases/${id}/look-further`,
  words: `Looking further takes ${minutes(spent)} and changes that in ${oneIn(changes)}.`,
})

const oneIn = (chance: number): string =>
  chance >= 0.5
    ? inHundred(chance)
    : `1 of ${Math.max(2, Math.min(100, Math.round(1 / Math.max(chance, 0.01))))}`

function reasons(on: OnBench): EndingPage['why'] {
  const { causes } = lookupOf(on.knowledge)
  return on.assessment.causes
    .filter(({ probability }, place) => place < 3 && (probability >= worthAReason || place === 0))
    .map(({ id, name, probability }) => ({
      name: `${name}, ${inHundred(probability)}`,
      words:
        reasonAgainst(on, id) ?? sentIn(causes.get(id)?.sendIn) ?? 'Not worth trying before sending it in.',
    }))
}

/** "Sent in: when the motor itself is rusty.", after the rulebook's own words. */
function sentIn(words: string | undefined): string | undefined {
  return words && `Sent in: ${words.charAt(0).toLowerCase()}${words.slice(1)}`
}

/** Why the fixes of one cause are not offered: tried, not possible here, barred, or none known. */
function reasonAgainst(on: OnBench, cause: string): string | null {
  const fixes = on.knowledge.fixes.filter(
    (fix) => fix.kinds.includes(on.bench.kind) && fix.cures[cause] !== undefined,
  )
  if (fixes.length === 0) return 'No fix for it can be done at a barber’s bench.'
  const tried = fixes.find(({ id }) => on.situation.fixesTried.includes(id))
  if (tried) return `“${tried.name}” was tried and did not cure it.`
  const cannot = fixes.find(({ id }) => on.situation.cannotDo.includes(id))
  if (cannot) return `“${cannot.name}” cannot be done here, as you said.`
  const barred = fixes.find(({ id }) => on.assessment.barred.has(id))
  return barred ? `“${barred.name}”: ${on.assessment.barred.get(barred.id)}` : null
}
