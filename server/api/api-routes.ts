import express, { Router } from 'express'
import type { RequestHandler } from 'express'
import { caseOperations } from './case-operations.js'
import { classOperations } from './class-operations.js'
import { diagnosisOperations } from './diagnosis-operations.js'
import { documentOperations } from './document-operations.js'
import { openApiDocument } from './openapi.js'
import { addOperations } from './operation.js'
import { practiceOperations } from './practice-operations.js'
import { shopOperations } from './shop-operations.js'
import { statementOperations } from './statement-operations.js'
import { problemHandler } from './problem-handler.js'
import { ApiProblem } from './problems.js'
import type { Deps } from '../wiring/deps.js'
import { jsonOnly } from './json-only.js'
import { sameOrigin } from '../middleware/same-origin.js'

const operations = [
  ...diagnosisOperations,
  ...statementOperations,
  ...caseOperations,
  ...practiceOperations,
  ...classOperations,
  ...shopOperations,
  ...documentOperations,
]

/**
 * Before the parser reads it, because half of a surrogate pair is no text: it can be neither stored nor sent back.
 *
 * @throws ApiProblem (400)
 */
function wholeLetters(_req: unknown, _res: unknown, body: Buffer): void {
  const rest = body
    .toString('latin1')
    .replaceAll('\\\\', '')
    .replaceAll(/\\ud[89ab]..\\ud[c-f]../gi, '')
  if (/\\ud[89a-f]../i.test(rest))
    throw new ApiProblem('not-readable', 'The body has half of a surrogate pair in it; send whole letters.')
}

let document: string | undefined
/** Made when first asked for: few ask, and the start need not wait. */
const documentText = () => (document ??= JSON.stringify(openApiDocument(operations)))

/**
 * The JSON API, to be mounted at `/api`. Whatever goes wrong below it is a problem document.
 *
 * @param doors what every request goes through first, as one for a page does
 */
export function apiRoutes(deps: Deps, doors: readonly RequestHandler[]): Router {
  const router = Router()
  router.use((_req, res, next) => {
    res.set('Cache-Control', 'no-store')
    next()
  })
  router.use(...doors, sameOrigin(), jsonOnly(), express.json({ limit: '64kb', verify: wholeLetters }))
  router
    .route('/openapi.json')
    .get((_req, res) => void res.type('application/json').send(documentText()))
    .all((req, res) => {
      res.set('Allow', 'GET, HEAD')
      throw new ApiProblem('wrong-method', `${req.method} does nothing here; use GET.`)
    })
  addOperations(router, operations, deps)
  router.use(() => {
    throw new ApiProblem('not-found', 'There is no such address; /api/openapi.json lists those that are.')
  })
  router.use(problemHandler())
  return router
}
