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
export const meanLife = (life: Life): number => meanResidualLife(life, 0)

/** Beyond this power of e nobody is left. */
const nobodyLeft = 40

/**
 * Mean residual life m(t) = ∫ R(t + u) du / R(t): how much longer those that reached an age last on average. Of a
 * Weibull law (η/β)·exp((t/η)^β)·Γ(1/β, (t/η)^β). By Simpson's rule over the cube root of u, which is smooth at 0 for
 * every shape; about ten digits.
 */
export function meanResidualLife({ shape, scale }: Life, age: number): number {
  const start = Math.pow(age / scale, shape)
  const end = scale * Math.pow(start + nobodyLeft, 1 / shape) - age
  return simpson((root) => {
    const later = age + end * root ** 3
    return 3 * end * root ** 2 * Math.exp(start - Math.pow(later / scale, shape))
  }, 1)
}

/** Mean age at which it leaves, when changed at T at the latest: ∫₀ᵀ R. */
const meanService = (survives: (age: number) => number, age: number): number => simpson(survives, age)

/** ∫ from 0 to `end`, by Simpson's rule in 400 strips. */
function simpson(of: (x: number) => number, end: number): number {
  const strips = 400
  const width = end / strips
  let sum = of(0) + of(end)
  for (let k = 1; k < strips; k++) sum += of(k * width) * (k % 2 === 1 ? 4 : 2)
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
