/** "A cause, in five minutes" of DEVELOPERS.md, followed to the letter in a copy of the rulebook. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { assess, prepare } from '../../server/diagnosis/assess.js'
import { reportOnRules } from '../../server/rulebook/check-rules.js'
import { fixRules } from '../../server/rulebook/fix-rules.js'
import { loadKnowledge } from '../../server/rulebook/load.js'

const project = fileURLToPath(new URL('../../', import.meta.url))
const guide = /### A cause, in five minutes\n([\s\S]*?)\n### /.exec(
  readFileSync(join(project, 'DEVELOPERS.md'), 'utf8'),
)![1]!

/** The steps of the guide: each with the files that it names and the JSON that it shows. */
const steps = guide.split(/\n(?=\d\. )/).map((text) => ({
  text,
  files: [...text.matchAll(/`rules\/([a-z]+\/[a-z-]+\.json)`/g)].map((match) => match[1]!),
  blocks: [...text.matchAll(/```json\n([\s\S]*?)```/g)].map((match) => match[1]!.replaceAll(/^ {3}/gm, '')),
}))

let dir: string
beforeAll(() => {
  const folder = mkdtempSync(join(tmpdir(), 'guide-test-'))
  dir = join(folder, 'rules')
  cpSync(join(project, 'rules'), dir, { recursive: true })
})
afterAll(() => rmSync(join(dir, '..'), { recursive: true }))

const write = (file: string, text: string) => writeFileSync(join(dir, file), text)
const read = (file: string) => readFileSync(join(dir, file), 'utf8')
function change<File>(file: string, mend: (data: File) => unknown): void {
  const data = JSON.parse(read(file)) as File
  mend(data)
  write(file, JSON.stringify(data))
}
const problems = () => [...reportOnRules(dir).text.matchAll(/^ {2}rules\/.*/gm)].map(([line]) => line.trim())

it('says what is missing after each step, and in the end that all is in order', async () => {
  const [, cause, shares, shows, confirms, fix] = steps
  const id = /causes\/(.*)\.json/.exec(cause!.files[0]!)![1]!

  write(cause!.files[0]!, cause!.blocks[0]!)
  expect(cause!.text).toContain('no finding points to it, no fix cures it, and the shares sum to 1004')
  expect(problems()).toEqual([
    expect.stringMatching(
      new RegExp(`^rules/causes/${id}\\.json: no finding for universal-motor points to it`),
    ),
    expect.stringMatching(new RegExp(`^rules/causes/${id}\\.json: .*no fix for universal-motor cures it`)),
    expect.stringMatching(/sum to 1004, not 1000; take 4 from .*worn-brushes \(\d+\)/),
  ])

  const [, kind, from, to] = /`([a-z-]+)` from (\d+) to (\d+)/.exec(shares!.text)!
  change<{ shares: Record<string, number> }>(shares!.files[0]!, (it) => {
    expect(it.shares[kind!], `the guide says ${from}: put it right in DEVELOPERS.md`).toBe(Number(from))
    it.shares[kind!] = Number(to)
  })
  expect(problems()).toHaveLength(2)

  change<{ strengths: object }>(shows!.files[0]!, (it) =>
    Object.assign(it.strengths, JSON.parse(`{${shows!.blocks[0]!}}`)),
  )
  expect(problems()[0]).toMatch(/nothing confirms it .* add a look or test .* 0\.85 or more/)

  const [asks, reads] = confirms!.files
  change<{ questions: unknown[] }>(asks!, (it) => it.questions.push(JSON.parse(confirms!.blocks[0]!)))
  write(reads!, confirms!.blocks[1]!)
  expect(problems()).toEqual([expect.stringMatching(/no fix for universal-motor cures it/)])

  write(fix!.files[0]!, fix!.blocks[0]!)
  expect(reportOnRules(dir).text).toMatch(
    /^rules\/schema\/ is out of date \(ids\.schema\.json\); run npm run fix:rules$/,
  )
  await fixRules(dir)
  expect(reportOnRules(dir)).toMatchObject({
    ok: true,
    text: expect.stringMatching(/^rules\/ is in order/) as string,
  })

  const prepared = await prepare(loadKnowledge(dir))
  const situation = Situation.parse({ kind: 'universal-motor', answers: { 'brush-cap-loose': 'yes' } })
  const { causes } = await assess(prepared, situation, ShopSettings.parse({}))
  expect(causes[0]!.id).toBe(id)
})

it('names files that are there, or that it makes', () => {
  const made = ['loose-brush-cap', 'brush-cap-loose', 'tighten-brush-caps']
  const named = steps.flatMap(({ files }) => files).filter((file) => !made.some((id) => file.includes(id)))
  expect(named.length).toBeGreaterThan(2)
  for (const file of named) expect(() => readFileSync(join(project, 'rules', file))).not.toThrow()
})
