/**
 * Scripts of pages that are written in TypeScript, made into one file for the browser when first asked for: there is no
 * build step, and nothing made lies in the project.
 */
import { build } from 'esbuild'
import { Router } from 'express'
import { fileURLToPath } from 'node:url'

const folder = fileURLToPath(new URL('../../views/scripts/', import.meta.url))
/** The scripts that a page may ask for; what they import comes along. */
const names: readonly string[] = ['listen']

const made = new Map<string, Promise<string>>()

/** Browsers of the last five years or so. */
async function scriptOf(name: string): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [`${folder}${name}.ts`],
    bundle: true,
    write: false,
    minify: true,
    format: 'iife',
    target: 'es2020',
    logLevel: 'silent',
  })
  return outputFiles[0]!.text
}

/** @param maxAge seconds for which a browser may keep it */
export function pageScripts(maxAge: number): Router {
  const router = Router()
  for (const name of names)
    router.get(`/assets/scripts/${name}.js`, async (_req, res) => {
      let script = made.get(name)
      if (!script) made.set(name, (script = scriptOf(name)))
      // a failure is not remembered
      script.catch(() => made.delete(name))
      res
        .type('text/javascript')
        .set('Cache-Control', `public, max-age=${maxAge}`)
        .send(await script)
    })
  return router
}
