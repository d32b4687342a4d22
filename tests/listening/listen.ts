/** `npm run listen -- file.wav [mains|motor|board] [50|60] [strokes]`: what the ear hears in a recording. */
import { readFileSync } from 'node:fs'
import { hear } from '../../server/listening/hear.js'
import { fromWav } from './wav.js'

const [file, drive = 'motor', mains = '50', strokes] = process.argv.slice(2)
const usage = 'npm run listen -- file.wav [mains, motor or board] [50 or 60] [strokes a minute of its plate]'

function refuse(words: string): never {
  console.error(`${words}\n${usage}`)
  process.exit(2)
}

function opened(name: string): ReturnType<typeof fromWav> {
  try {
    return fromWav(readFileSync(name))
  } catch (error) {
    refuse(`${name} cannot be read as a WAV file: ${error instanceof Error ? error.message : String(error)}`)
  }
}

if (file === undefined) refuse('Say which file.')
if (drive !== 'mains' && drive !== 'motor' && drive !== 'board')
  refuse(`"${drive}" is no drive: say mains, motor or board.`)
if (mains !== '50' && mains !== '60') refuse(`"${mains}" is no mains: say 50 or 60.`)
const expected = strokes === undefined ? null : Number(strokes)
if (expected !== null && !(expected > 0)) refuse(`"${strokes}" is no number of strokes.`)

const { samples, rate } = opened(file)
const { track, ...told } = hear(samples, rate, {
  drive,
  mains: mains === '60' ? 60 : 50,
  between: drive !== 'motor' ? [2600, 9000] : [1500, 12_000],
  expected,
})
console.log(JSON.stringify(told, null, 2))
console.log(
  `${track.filter(({ perMinute }) => perMinute !== null).length} of ${track.length} looks heard strokes`,
)
