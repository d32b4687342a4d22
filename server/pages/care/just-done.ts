import { listWords } from '../layout/words.js'

/** What was logged a moment ago, to be taken back by one tap. */
export interface JustDone {
  readonly batch: string
  readonly words: string
}

/** @param short names of parts of which the shelf had too little */
export const justDone = (jobs: number, batch: string, short: readonly string[]): JustDone => ({
  batch,
  words: `${jobs} ${jobs === 1 ? 'job' : 'jobs'} logged.${short.length === 0 ? '' : ` The shelf had too little: ${listWords(short)}. Count it.`}`,
})
