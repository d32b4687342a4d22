/**
 * What pages load that lies here in parts: scripts written in TypeScript, and the style sheets of every page. Each is made
 * into one file when first asked for: a phone asks once instead of ten times, there is no build step, and nothing made lies
 * in the project.
 */
import { build } from 'esbuild'
import { Router } from 'express'
import { fileURLToPath } from 'node:url'

/** By address below `/assets`, where its making begins; what is imported comes along. */
const parts = {
  'scripts/listen.js': new URL('../../views/scripts/listen.ts', import.meta.url),
  'site.css': new URL('../../views/assets/site.css', import.meta.url),
}

const made = new Map<string, Promise<string>>()

/** Browsers of the last five years or so. */
async function partOf(from: URL): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(from)],
    bundle: true,
    write: false,
    minify: true,
    format: 'iife',
    target: ['es2020', 'chrome111', 'safari16.4', 'firefox113'],
    logLevel: 'silent',
  })
  return outputFiles[0]!.text
}

/** @param maxAge seconds for which a browser may keep it; 0: it is made anew each time, for whoever works on it */
export function madeAssets(maxAge: number): Router {
  const router = Router()
  for (const [address, from] of Object.entries(parts))
    router.get(`/assets/${address}`, async (_req, res) => {
      let part = maxAge > 0 ? made.get(address) : undefined
      if (!part) made.set(address, (part = partOf(from)))
      // a failure is not remembered
      part.catch(() => made.delete(address))
      res
        .type(address.slice(address.lastIndexOf('.')))
        .set('Cache-Control', `public, max-age=${maxAge}`)
        .send(await part)
    })
  return router
}
