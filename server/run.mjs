/**
 * `node server/run.mjs server/start.ts`: our TypeScript made into one file and run. Loaded file by file the program takes
 * twice as long to start. It lies beside the packages, so that what it imports is found; nothing made lies in the project.
 */
import { build } from 'esbuild'
import { createHash } from 'node:crypto'
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { resolve } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'

const kept = new URL('../node_modules/.cache/clipperwright/', import.meta.url)

/** A file goes on finding what lies beside its source. */
const ownPlace = {
  name: 'own-place',
  setup: (made) =>
    made.onLoad({ filter: /[\\/](server|shared|tests)[\\/].*\.ts$/ }, ({ path }) => ({
      loader: 'ts',
      contents: readFileSync(path, 'utf8').replaceAll(
        'import.meta.url',
        JSON.stringify(pathToFileURL(path).href),
      ),
    })),
}

/** Made files of code as it was are left that long: another checkout may share the folder. In milliseconds. */
const aWeek = 7 * 24 * 3_600_000

function keep(file, text) {
  try {
    mkdirSync(kept, { recursive: true })
    // whoever starts at the same time finds a whole file or none
    const half = new URL(`${file.href}-${process.pid}`)
    writeFileSync(half, text)
    renameSync(half, file)
    for (const name of readdirSync(kept)) {
      const old = new URL(name, kept)
      if (statSync(old).mtimeMs < Date.now() - aWeek) rmSync(old)
    }
  } catch (error) {
    console.error(
      `${fileURLToPath(kept)} cannot be written (${error.code}): let whoever starts this write there.`,
    )
    process.exit(1)
  }
}

/** @param {URL} entry a file of ours */
export async function run(entry) {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(entry)],
    bundle: true,
    write: false,
    outfile: fileURLToPath(new URL('it.mjs', kept)),
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    plugins: [ownPlace],
    logLevel: 'error',
    sourcemap: 'inline',
    sourcesContent: false,
  })
  const { text } = outputFiles[0]
  const file = new URL(`${createHash('sha256').update(text).digest('hex').slice(0, 16)}.mjs`, kept)
  if (!existsSync(file)) keep(file, text)
  process.setSourceMapsEnabled(true)
  await import(file.href)
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  // to what is run it looks as if it had been called itself
  process.argv.splice(1, 2, resolve(process.argv[2]))
  await run(pathToFileURL(process.argv[1]))
}
