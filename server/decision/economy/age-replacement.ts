/**
 * When to replace a thing that wears before it fails: the policy of age replacement (Barlow & Hunter 1960). A tool is
 * replaced at age T, or when it fails, whichever comes first; a failure costs more than a planned change.
 */

/** How long things of a sort last: Weibull, shape β (above 1 it wears), scale η in the unit of its ages. */
export interface Life {
  readonly shape: number
  readonly scale: number
}

/** P(it lasts beyond the age). */
export const survival = ({ shape, scale }: Life, age: number): number =>
  Math.exp(-Math.pow(age / scale, shape))

/** h(t): how fast those of this age fail, a share in a unit of age. At age 0 a shape below 1 has no bound. */
export const hazard = ({ shape, scale }: Life, age: number): number =>
  (shape / scale) * Math.pow(age / scale, shape - 1)

/** Mean age at failure: η·Γ(1 + 1/β). */
export const meanLife = ({ shape, scale }: Life): number => scale * gamma(1 + 1 / shape)

/** Mean age at which it leaves, when changed at T at the latest: ∫₀ᵀ R. By Simpson's rule, 400 strips. */
export function meanService(survives: (age: number) => number, age: number): number {
  const strips = 400
  const width = age / strips
  let sum = survives(0) + survives(age)
  for (let k = 1; k < strips; k++) sum += survives(k * width) * (k % 2 === 1 ? 4 : 2)
  return (sum * width) / 3
}

export interface ReplacementCosts {
  readonly planned: number
  readonly failure: number
}

/** Cost in the long run, a unit of age: [c_p·R(T) + c_f·(1 − R(T))] / ∫₀ᵀ R. */
export function costRate(survives: (age: number) => number, age: number, costs: ReplacementCosts): number {
  const lasts = survives(age)
  return (costs.planned * lasts + costs.failure * (1 - lasts)) / meanService(survives, age)
}

/**
 * The age with the least cost in the long run, by golden section on the logarithm of age (the cost rate of a wearing
 * thing has one valley).
 *
 * @returns `age` is Infinity where it pays to wait for the failure: it does not wear, or a failure costs no more
 */
export function bestAge(
  life: Life,
  costs: ReplacementCosts,
): { readonly age: number; readonly rate: number } {
  const toFailure = { age: Infinity, rate: costs.failure / meanLife(life) }
  if (life.shape <= 1 || costs.failure <= costs.planned) return toFailure
  const survives = (age: number) => survival(life, age)
  const at = (log: number) => costRate(survives, Math.exp(log), costs)
  const ratio = (Math.sqrt(5) - 1) / 2
  let low = Math.log(life.scale) - 7
  let high = Math.log(life.scale) + 1.5
  while (high - low > 1e-10) {
    const a = high - ratio * (high - low)
    const b = low + ratio * (high - low)
    if (at(a) < at(b)) high = b
    else low = a
  }
  const age = Math.exp((low + high) / 2)
  const rate = costRate(survives, age, costs)
  return rate < toFailure.rate ? { age, rate } : toFailure
}

/** Γ(x) for x above 0: Lanczos 1964, with the nine terms that are common since; about 15 digits. */
function gamma(x: number): number {
  const terms = [
    0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
    12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
  ]
  const z = x - 1
  const sum = terms.reduce((total, term, k) => total + (k === 0 ? term : term / (z + k)), 0)
  const t = z + 7.5
  return Math.sqrt(2 * Math.PI) * Math.pow(t, z + 0.5) * Math.exp(-t) * sum
}
