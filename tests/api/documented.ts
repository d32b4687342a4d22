import { Ajv2020 } from 'ajv/dist/2020.js'
import addFormats from 'ajv-formats'
import type { Response } from 'supertest'
import { expect } from 'vitest'
import { caseOperations } from '../../server/api/case-operations.js'
import { classOperations } from '../../server/api/class-operations.js'
import { diagnosisOperations } from '../../server/api/diagnosis-operations.js'
import { documentOperations } from '../../server/api/document-operations.js'
import { practiceOperations } from '../../server/api/practice-operations.js'
import { shopOperations } from '../../server/api/shop-operations.js'
import { statementOperations } from '../../server/api/statement-operations.js'
import { openApiDocument } from '../../server/api/openapi.js'

interface Documented {
  readonly paths: Record<
    string,
    Record<string, { responses: Record<string, { content: Record<string, { schema: { $ref: string } }> }> }>
  >
}

export const operations = [
  ...diagnosisOperations,
  ...caseOperations,
  ...practiceOperations,
  ...classOperations,
  ...shopOperations,
  ...statementOperations,
  ...documentOperations,
]
export const document = openApiDocument(operations) as unknown as Documented

// strict is off because an OpenAPI document has words of its own around the schemas. Each schema is compiled once, not
// anew wherever it is named, and not polished: to compile took longer than all that is checked.
const ajv = new Ajv2020({ strict: false, allErrors: true, inlineRefs: false, code: { optimize: false } })
addFormats.default(ajv)
ajv.addSchema(document, 'api')

/** Checks that the document foresees this answer to this operation: status, media type and body. */
export function expectDocumented(res: Response, method: 'get' | 'post', path: string): void {
  const foreseen = document.paths[path]?.[method]?.responses[res.status]
  expect(foreseen, `${method} ${path} answers ${res.status}: ${res.text.slice(0, 300)}`).toBeDefined()
  const type = res.type
  const schema = foreseen?.content[type]?.schema
  expect(schema, `${method} ${path} answers ${type}`).toBeDefined()
  const fits = ajv.getSchema(`api${schema?.$ref}`)!
  expect(fits(res.body), JSON.stringify(fits.errors?.slice(0, 3))).toBe(true)
}
