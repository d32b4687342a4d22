/** Which drawings lie in the folder of drawings, read once at start. A drawing is added by its file and nothing else. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { PartPlaces } from '../../../shared/part-places.js'

const folder = fileURLToPath(new URL('../../../views/partials/drawings/', import.meta.url))

function named(within: string, ending: string): string[] {
  return readdirSync(`${folder}${within}`)
    .filter((name) => name.endsWith(ending))
    .map((name) => name.slice(0, -ending.length))
}

/** Names of the line drawings; each has one text alternative and nothing else. */
export const drawingIds: ReadonlySet<string> = new Set(named('', '.ejs'))

/** For each drawing of a kind's parts, the place of each part's label. */
export const partPlaces: ReadonlyMap<string, PartPlaces> = new Map(
  named('parts/', '.json').map((name) => [
    name,
    PartPlaces.parse(JSON.parse(readFileSync(`${folder}parts/${name}.json`, 'utf8'))),
  ]),
)
