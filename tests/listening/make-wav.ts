/** `node server/run.mjs tests/listening/make-wav.ts kind number file.wav`: a made clipper as a file, to listen to or to be heard. */
import { writeFileSync } from 'node:fs'
import { madeKinds, recording } from './recordings.js'
import { toWav } from './wav.js'

const [kind, number, file] = process.argv.slice(2)
const known = madeKinds.find((it) => it === kind)
if (!known || file === undefined) {
  console.error(`Say a kind (${madeKinds.join(', ')}), a number and a file.`)
  process.exit(2)
}
const { samples, tool, context } = recording(known, Number(number), { rate: 48_000 })
writeFileSync(file, toWav(samples, 48_000))
console.log(`${file}: ${tool.perMinute.toFixed(0)} strokes a minute, mains ${context.mains} Hz`)
