/** How long ten seconds of sound take to be heard, beside one transform of the same length. */
import FFT from 'fft.js'
import { hear } from '../../server/listening/hear.js'
import { recording } from '../listening/recordings.js'

/** The best of so many, in milliseconds of processor: a machine that does other things as well tells the same. */
function best(times: number, work: () => void): number {
  return Math.min(
    ...Array.from({ length: times }, () => {
      const began = process.cpuUsage()
      work()
      const { user, system } = process.cpuUsage(began)
      return (user + system) / 1000
    }),
  )
}

/** Milliseconds of processor at 48 000 samples a second, and how many transforms of 2^19 points (eleven seconds) that is. */
export function listeningSpeed(): { readonly milliseconds: number; readonly transforms: number } {
  const { samples, rate, context } = recording('direct', 0, { rate: 48_000 })
  const transform = new FFT(2 ** 19)
  const into = transform.createComplexArray() as number[]
  const padded = [...samples, ...new Array<number>(2 ** 19 - samples.length).fill(0)]
  const milliseconds = best(5, () => hear(samples, rate, context))
  return { milliseconds, transforms: milliseconds / best(5, () => transform.realTransform(into, padded)) }
}
