/** Reads source text for what a file must not name. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import ts from 'typescript'

const root = fileURLToPath(new URL('../../', import.meta.url))

/** Clock, chance and the world outside: the core gives the same answer to the same input, anywhere, ever. */
const worldly = new Set(
  'Date performance process console crypto fetch globalThis setTimeout setInterval setImmediate require'.split(
    ' ',
  ),
)

/** Names of the world outside that a file of the core uses. Comments and strings do not count. */
export function worldlyProblems(file: string, text: string): string[] {
  const problems: string[] = []
  const visit = (node: ts.Node): void => {
    const isMember =
      node.parent !== undefined && ts.isPropertyAccessExpression(node.parent) && node.parent.name === node
    if (ts.isIdentifier(node) && worldly.has(node.text) && !isMember)
      problems.push(`${file} uses ${node.text}`)
    if (ts.isPropertyAccessExpression(node) && node.getText() === 'Math.random')
      problems.push(`${file} uses Math.random`)
    ts.forEachChild(node, visit)
  }
  visit(ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true))
  return problems
}

/** Strings that name a template: `pages/x`, `views/pages`, `*.ejs`. Pictures and styles under views/assets are no templates. */
export function viewNames(text: string): string[] {
  const names: string[] = []
  const visit = (node: ts.Node): void => {
    const isText = ts.isStringLiteralLike(node) || ts.isTemplateHead(node)
    const isImport =
      node.parent !== undefined &&
      (ts.isImportDeclaration(node.parent) || ts.isExportDeclaration(node.parent))
    if (isText && !isImport && /^pages\/|views(\/pages|\/?$)|\.ejs$/.test(node.text)) names.push(node.text)
    ts.forEachChild(node, visit)
  }
  visit(ts.createSourceFile('any.ts', text, ts.ScriptTarget.Latest, true))
  return names
}

/** Every TypeScript file below a folder of the project, with its text. */
export function sources(folder: string): { file: string; text: string }[] {
  return readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .filter((file) => file.endsWith('.ts'))
    .sort()
    .map((file) => ({ file, text: readFileSync(`${root}${file}`, 'utf8') }))
}
