/** `npm run bench`: how fast the core and a question page are on this machine, beside the marks. No test. */
import { prepare } from '../../server/diagnosis/prepare.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { generator } from '../study/random-rulebook.js'
import type { CoreSpeed } from './core-speed.js'
import { coreSpeed, growth } from './core-speed.js'
import { listeningSpeed } from './listening-speed.js'
import { pageSpeeds } from './page-speed.js'
import { scaledRulebook } from './scaled-rulebook.js'
import { shopSpeed } from './shop-speed.js'
import { situationsOf } from './situations.js'

const kind = 'universal-motor'
const sizes = [10, 20, 40, 80, 160]
const knowledge = loadKnowledge()

const number = (value: number, digits = 1): string => value.toFixed(digits).padStart(9)
const verdict = (met: boolean): string => (met ? 'met' : 'MISSED')
const row = (name: string, { assess, next, exact, situations }: CoreSpeed): string =>
  name.padEnd(26) +
  [assess.median, assess.percentile99, next.median, next.percentile99].map((it) => number(it)).join('') +
  `    ${exact} of ${situations}`

console.log('The core, in milliseconds (clock time; best of three for each situation)\n')
console.log(`${' '.repeat(26)}   assess           next step             exact`)
console.log(`${' '.repeat(26)}   median      99%   median      99%    scorings`)

const medians: { size: number; assess: number; next: number }[] = []
for (const size of sizes) {
  const random = generator(size + 1)
  const prepared = await prepare(scaledRulebook(knowledge, kind, size, random))
  const { model } = prepared.kinds.get(kind)!
  const speed = await coreSpeed(prepared, situationsOf(model, 60, random, 'as-the-fault-shows'))
  const counts = `${model.causes.length} causes, ${model.findings.length} findings`
  console.log(row(counts, speed))
  medians.push({ size, assess: speed.assess.median, next: speed.next.median })
}

const prepared = await prepare(knowledge)
const { model } = prepared.kinds.get(kind)!
const real = await coreSpeed(prepared, situationsOf(model, 200, generator(7), 'as-the-fault-shows'))
console.log(row(`the rulebook (${model.causes.length} causes)`, real))
const coin = await coreSpeed(prepared, situationsOf(model, 100, generator(8), 'by-a-coin'))
console.log(row('the same, coin answers', coin))

const assessGrowth = growth(medians.map(({ size, assess }) => [size, assess]))
const nextGrowth = growth(medians.map(({ size, next }) => [size, next]))
console.log(`
Marks, at the full rulebook
  assess, median            under   5 ms  ${number(real.assess.median)}    ${verdict(real.assess.median < 5)}
  next step, median         under  50 ms  ${number(real.next.median)}    ${verdict(real.next.median < 50)}
  next step, 99 in 100      under 150 ms  ${number(real.next.percentile99)}    ${verdict(real.next.percentile99 < 150)}
  growth of assess          power at most 2 ${number(assessGrowth, 2).slice(2)}    ${verdict(assessGrowth <= 2)}
  growth of next step       power at most 2 ${number(nextGrowth, 2).slice(2)}    ${verdict(nextGrowth <= 2)}
`)

console.log('One page, requests a second over 8 connections that are kept open, servers in turn\n')
const [bare, page, without] = await pageSpeeds(prepared, kind)
for (const { name, perSecond, cpuMicros, bytes } of [bare, page, without]) {
  const share = (perSecond / bare.perSecond).toFixed(3)
  console.log(
    `${name.padEnd(26)}${number(perSecond, 0)} a second  ${share} of bare${number(cpuMicros, 0)} µs of processor a page${number(bytes, 0)} bytes`,
  )
}
const shop = await shopSpeed(knowledge)
console.log(
  `\nA shop with 50 tools and ${shop.entries} entries of care, median milliseconds a page, one at a time\n`,
)
for (const { name, milliseconds } of shop.pages)
  console.log(
    `${name.padEnd(26)}${number(milliseconds)}    ${number(milliseconds / shop.pages[0]!.milliseconds)} of a bare page    ${verdict(milliseconds < 200)}`,
  )

const ratio = page.perSecond / bare.perSecond
console.log(`\nMark: at least 0.5 of the bare page  ${ratio.toFixed(3)}    ${verdict(ratio >= 0.5)}`)

const listening = listeningSpeed()
console.log(
  `\nListening to ten seconds: ${listening.milliseconds.toFixed(0)} ms, ${listening.transforms.toFixed(1)} transforms of the same length; under 200 ms: ${verdict(listening.milliseconds < 200)}`,
)
