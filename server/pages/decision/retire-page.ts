/** The list for a tool that is set aside for good: printed on one page, ticked by hand. */
import type { Paper } from '../../../shared/knowledge.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { standingDangers } from './handover-cautions.js'
import type { PaperLine } from './handover-page.js'
import { paperLines } from './handover-page.js'

export interface RetirePage {
  readonly frame: Frame
  readonly tool: string
  readonly kind: string
  readonly number: string
  /** dangers that stand: whoever takes it apart must know them first */
  readonly dangers: readonly string[]
  readonly lines: readonly PaperLine[]
  readonly home: string
}

export function retirePage(on: OnBench, papers: readonly Paper[]): RetirePage {
  const { knowledge, bench } = on
  const { kinds } = lookupOf(knowledge)
  return {
    frame: caseFrame(knowledge, bench, 'Retire list', { at: '/retire' }),
    tool: bench.tool || 'Tool without a name',
    kind: kinds.get(bench.kind)?.name ?? bench.kind,
    number: bench.id,
    dangers: standingDangers(on),
    lines: paperLines(papers, 'retiring'),
    home: `/cases/${bench.id}`,
  }
}
