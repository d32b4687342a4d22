import type { Knowledge } from '../../../shared/knowledge.js'
import type { Problem } from '../../forms/answer-form.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { KindPictures } from '../identify/kind-pictures.js'
import { kindPictures } from '../identify/kind-pictures.js'
import { powers } from './start-page.js'

/** Which kind it is: a picture of each, to tap. */
export interface NewPage {
  readonly frame: Frame
  readonly pictures: KindPictures
  readonly problems: readonly Problem[]
}

/** @param on `cord` or `battery`; every kind for anything else */
export function newPage(knowledge: Knowledge, on: string, problems: readonly Problem[] = []): NewPage {
  const runsOn = powers.find(({ id }) => id === on)?.id
  return {
    frame: plainFrame(problems.length > 0 ? 'Error: Which of these?' : 'Which of these?'),
    pictures: kindPictures(
      knowledge,
      knowledge.kinds.filter((kind) => runsOn === undefined || kind.runsOn === runsOn),
      runsOn,
    ),
    problems,
  }
}

/** What was sent to begin a case, as it was sent. */
export interface Begun {
  readonly kind: string
  readonly tool: string
}

/** As long as a tool's name may be. */
const longestName = 300

/** Check what was sent. A slip is a value: each problem is tied to its field. */
export function begunFrom(knowledge: Knowledge, sent: Begun): readonly Problem[] {
  const problems: Problem[] = []
  if (!lookupOf(knowledge).kinds.has(sent.kind))
    problems.push({ field: 'kinds', message: 'Tap the picture of your tool' })
  if (sent.tool.length > longestName)
    problems.push({
      field: 'tool',
      message: `Give the tool a shorter name, of at most ${longestName} characters`,
    })
  return problems
}
