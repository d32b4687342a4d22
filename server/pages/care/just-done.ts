import { counted, listWords } from '../layout/words.js'

/** What was logged a moment ago, to be taken back by one tap. */
export interface JustDone {
  readonly batch: string
  readonly words: string
}

const mostNames = 3

/** @param tools names of the tools that it was done on @param short names of parts of which the shelf had too little */
export const justDone = (
  jobs: number,
  batch: string,
  tools: readonly string[],
  short: readonly string[],
): JustDone => ({
  batch,
  words: `${counted(jobs, 'job')} logged${onWhich(tools)}.${short.length === 0 ? '' : ` The shelf had too little: ${listWords(short)}. Count it.`}`,
})

/** ": Chair 1, Chair 2, Chair 3 and 2 more"; empty where nobody knows. */
function onWhich(tools: readonly string[]): string {
  const more = tools.length > mostNames ? [`${tools.length - mostNames} more`] : []
  return tools.length === 0 ? '' : `: ${listWords([...tools.slice(0, mostNames), ...more])}`
}
