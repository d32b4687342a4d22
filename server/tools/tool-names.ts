/** What a tool is called until somebody gives it a name. Pure. */
import type { Kind } from '../../shared/knowledge.js'
import type { Tool } from '../../shared/tool.js'
import { longestToolName } from '../../shared/tool.js'

const key = (name: string): string => name.trim().toLocaleLowerCase('en')

/** The tool of this name, whatever its capitals; the one in use before one that was retired. */
export const toolNamed = (tools: readonly Tool[], name: string): Tool | undefined =>
  tools
    .filter((tool) => key(tool.name) === key(name))
    .sort((a, b) => Number(a.place === 'retired') - Number(b.place === 'retired'))[0]

/** "Corded 3": how it runs, and the first number that is free. */
export function freeName(tools: readonly Pick<Tool, 'name'>[], { runsOn }: Pick<Kind, 'runsOn'>): string {
  const taken = new Set(tools.map(({ name }) => key(name)))
  const word = runsOn === 'battery' ? 'Cordless' : 'Corded'
  for (let number = 1; ; number++) if (!taken.has(key(`${word} ${number}`))) return `${word} ${number}`
}

/** The name as a tool may have it: a case may have been given a longer one. */
export const toolName = (typed: string): string => typed.trim().slice(0, longestToolName).trim()
