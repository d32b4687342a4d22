/**
 * `npm run listen:figures -- [so many of each kind] [10dB 3dB unknown coded drop-outs two]`: how often the ear is right, over
 * made clippers of every kind; all of it, or the parts that are named. A hundred of each take some twenty minutes.
 */
import { hear } from '../../server/listening/hear.js'
import { coded } from './coded.js'
import type { Recording, Wish } from './recordings.js'
import { madeKinds, recording, tally } from './recordings.js'

const each = Number(process.argv[2] ?? 100)
const named = process.argv.slice(3)
const wanted = (part: string) => named.length === 0 || named.includes(part)
const numbers = Array.from({ length: each }, (_, i) => i)
const percent = (part: number, of: number) => `${((100 * part) / Math.max(1, of)).toFixed(1)} %`

function rates(name: string, wish: (n: number) => Wish, code = false): void {
  for (const kind of madeKinds) {
    const got = tally(
      numbers.map((n) => {
        const made = recording(kind, n, wish(n))
        const samples = code ? coded(made.samples, made.rate) : made.samples
        const { rate } = hear(samples, made.rate, made.context)
        return { truth: made.tool.perMinute, heard: rate?.perMinute ?? null, of: String(n) }
      }),
    )
    console.log(
      `${name}, ${kind}: right ${percent(got.right, got.of)}, cannot tell ${percent(got.cannotTell, got.of)}, wrong ${got.wrong.length}`,
      got.wrong.slice(0, 6).join('; '),
    )
  }
}

if (wanted('10dB')) rates('10 dB', () => ({}))
if (wanted('3dB')) rates('3 dB', () => ({ room: { overNoise: 3 } }))
if (wanted('unknown')) rates('10 dB, nothing known', () => ({ knows: false }))
if (wanted('coded')) rates('10 dB, 24 kbit/s speech codec', () => ({ rate: 16_000 }), true)

for (const kind of wanted('drop-outs') ? madeKinds : []) {
  let [there, found, wrong, minutes] = [0, 0, 0, 0]
  for (const n of numbers) {
    const off = [2.1, 5, 8.2].map((from) => ({ from, to: from + 0.06 }))
    const made = recording(kind, n, { does: { off } })
    const heard = hear(made.samples, made.rate, made.context)
    if (!heard.rate) continue
    there += off.length
    found += off.filter((it) =>
      heard.dropOuts.some(({ at }) => at > it.from - 0.05 && at < it.to + 0.25),
    ).length
    const sound = recording(kind, n)
    wrong += hear(sound.samples, sound.rate, sound.context).dropOuts.length
    minutes += 10 / 60
  }
  console.log(
    `drop-outs of 60 ms, ${kind}: found ${percent(found, there)} of ${there}; false ${(wrong / minutes).toFixed(2)} a minute`,
  )
}

/** As loud as each other. Two on the same mains stroke alike, and nobody can tell them apart: their count is left out. */
if (wanted('two')) {
  let [of, told] = [0, 0]
  for (const n of numbers) {
    const mains = n % 2 === 0 ? 50 : 60
    const [one, other] = [madeKinds[n % 5]!, madeKinds[(2 * n + 1 + Math.floor(n / 5)) % 5]!].map((kind, k) =>
      recording(kind, n + 1000 * k, { rate: 8000, mains, knows: false }),
    ) as [Recording, Recording]
    if (one.context.drive === 'mains' && other.context.drive === 'mains') continue
    const both = one.samples.map((value, k) => value + other.samples[k]!)
    of++
    if (hear(both, 8000, one.context).rate) told++
  }
  console.log(`two tools as loud as each other: a rate in ${told} of ${of}`)
}
