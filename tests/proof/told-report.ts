/** The told repairs in lines for a console: places and log loss by half and kind, how sure against how right. */
import type { ToldCause } from '../../shared/proof.js'
import { logLoss, shareOf, shareWithin, sureAgainstRight } from '../../server/proof/told-marks.js'

export function toldReport(causes: readonly ToldCause[]): string[] {
  const of100 = ({ mean, se }: { mean: number; se: number }) =>
    `${Math.round(100 * mean)} ±${Math.round(100 * se)}`
  const line = (name: string, some: readonly ToldCause[]) => {
    const complaint = [1, 3].map((most) => of100(shareOf(some.map((it) => it.afterComplaint <= most))))
    const all = [1, 3].map((most) => of100(shareWithin(some, most)))
    const { mean, se } = logLoss(some)
    return (
      `${name.padEnd(24)} causes ${String(some.length).padStart(3)}   complaint ${complaint.join(', ')}   ` +
      `all ${all.join(', ')}   log loss ${mean.toFixed(2)} ±${se.toFixed(2)}`
    )
  }
  const kinds = [...new Set(causes.map(({ kind }) => kind))]
  return [
    'Told repairs, of 100: true cause first, among three',
    line('all', causes),
    line(
      'tuned on',
      causes.filter(({ half }) => half === 'tuned-on'),
    ),
    line(
      'held back',
      causes.filter(({ half }) => half === 'held-back'),
    ),
    line(
      'two answers or more',
      causes.filter(({ thin }) => !thin),
    ),
    ...kinds.map((kind) =>
      line(
        kind,
        causes.filter((it) => it.kind === kind),
      ),
    ),
    ...sureAgainstRight(causes).map(
      ({ from, to, stories, said, right }) =>
        `sure ${from} to ${to}: ${stories} repairs, said ${Math.round(100 * said)}, right ${of100(right)}`,
    ),
  ]
}
