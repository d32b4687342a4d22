import { SetShop, ShopView } from '../../shared/api.js'
import type { FigureName, ShopRecord, SomeFigures } from '../../shared/figures.js'
import type { ShopFigures } from '../cases/shop-figures.js'
import type { ValueProblem } from '../errors.js'
import { currencyOf } from '../decision/currency.js'
import { figuresInForce } from '../decision/figures-of.js'
import { amountNames } from '../decision/figure-sorts.js'
import type { Operation } from './operation.js'
import { operation, refuse } from './operation.js'

/** The shop's own record. */
export const shopOperations: readonly Operation[] = [
  operation({
    name: 'getShop',
    method: 'get',
    path: '/shop',
    summary: 'The shop’s currency and figures',
    output: ShopView,
    status: 200,
    problems: [],
    run: ({ shop }) => Promise.resolve({ body: shopView(shop) }),
  }),
  operation({
    name: 'setShop',
    method: 'post',
    path: '/shop',
    summary: 'Set figures of the shop, or give them back; those that are not named stay',
    input: SetShop,
    output: ShopView,
    status: 200,
    problems: ['moved-on', 'not-acceptable'],
    async run({ shop }, { currency: code, figures, forget, version }) {
      const before = shop.record
      const seen = version ?? shop.version
      const currency = code === undefined ? before.currency : currencyOf(code)
      const twice = forget.flatMap((name, i) =>
        figures[name] === undefined
          ? []
          : [{ path: ['forget', String(i)], message: `${name} is in figures too; set it or give it back` }],
      )
      if (currency === null) {
        const message = `"${code}" is no currency; use a code of ISO 4217, such as EUR`
        return refused([...twice, { path: ['currency'], message }])
      }
      refuse(twice)
      const stay = Object.fromEntries(
        Object.entries(before.figures).filter(([name]) => !forget.some((gone) => gone === name)),
      ) as SomeFigures
      if (currency.digits !== before.currency.digits) refuse(leftBehind(stay, figures, currency.code))
      const record: ShopRecord = { currency, figures: { ...stay, ...figures } }
      await shop.keep(record, seen)
      return { body: shopView(shop) }
    },
  }),
]

function refused(problems: readonly ValueProblem[]): never {
  refuse(problems)
  throw new Error('there was nothing to refuse')
}

/** An amount in cents is none in yen: with another minor unit every amount is set anew, or given back. */
function leftBehind(stay: SomeFigures, figures: SomeFigures, code: string): ValueProblem[] {
  const left = amountNames.filter(
    (name: FigureName) => stay[name] !== undefined && figures[name] === undefined,
  )
  if (left.length === 0) return []
  const message = `${code} has another minor unit; set ${left.join(', ')} again too, or give them back in forget`
  return [{ path: ['currency'], message }]
}

function shopView({ record: { currency, figures }, version }: ShopFigures): ShopView {
  return { currency, figures, version, inForce: figuresInForce({ shop: figures }).figures }
}
