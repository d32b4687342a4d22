import { readdirSync, readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { pageNames } from '../../server/pages/render.js'

const at = (path: string): URL => new URL(`../../views/${path}`, import.meta.url)
const views = ['pages/', 'partials/'].flatMap((folder) =>
  readdirSync(at(folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ejs'))
    .map((file) => `${folder}${file}`),
)

it('has a view for every page model, and a model for every view', () => {
  const files = views
    .filter((view) => view.startsWith('pages/'))
    .map((view) => view.replace(/^pages\/|\.ejs$/g, ''))
  expect(files.sort()).toEqual([...pageNames].sort())
})

// CSP level 3: no inline script, no inline style, no handler in an attribute passes our policy.
it.each(views)('%s holds nothing that the content security policy would refuse', (view) => {
  const text = readFileSync(at(view), 'utf8')
  expect(text).not.toMatch(/<script(?![^>]*\ssrc=)/)
  expect(text).not.toMatch(/\sstyle=|\son[a-z]+=|javascript:/)
})

/** A drawing that the chart library has finished; what words it holds, the library has escaped. */
const finished = { 'partials/worth-drawing.ejs': ['<%- page.svg %>'] } as const

it.each(views)('%s prints no text unescaped', (view) => {
  const raw = readFileSync(at(view), 'utf8').match(/<%-[^%]*%>/g) ?? []
  const drawn: readonly string[] = finished[view as keyof typeof finished] ?? []
  expect(raw.filter((tag) => !tag.startsWith('<%- part(') && !drawn.includes(tag))).toEqual([])
})

it.each(views.filter((view) => !view.includes('drawings/')))('%s does no arithmetic on shares', (view) => {
  expect(readFileSync(at(view), 'utf8')).not.toMatch(/Math\.|toFixed|probability/)
})
