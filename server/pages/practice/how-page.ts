/** How a look or a fix is done, with its drawing: opened from the bench, and done from here. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { PracticeMove } from '../../../shared/practice.js'
import { missingSetups } from '../../practice/prices.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { Drawing } from '../layout/line-drawing.js'
import { lineDrawing } from '../layout/line-drawing.js'
import type { PartsDrawing } from '../layout/parts-drawing.js'
import { partsMarked } from '../layout/parts-drawing.js'
import type { AtBench } from './bench-page.js'
import { exerciseHref } from './bench-page.js'
import { keyOf } from './move-key.js'
import { partOfFix, partOfStep } from './part-of.js'

interface Part {
  readonly name: string
  readonly lines: readonly { readonly do: string; readonly caution: string }[]
}

export interface HowPage {
  readonly frame: Frame
  readonly title: string
  readonly tells: string
  readonly cautions: readonly string[]
  readonly tools: string
  readonly drawing: Drawing | null
  /** the part that it is about, where it has no drawing of its own */
  readonly where: PartsDrawing | null
  /** what has to stand first and does not, then the work itself */
  readonly parts: readonly Part[]
  readonly action: string
  readonly seen: number
  readonly move: string
  readonly back: string
}

/** @returns undefined for a move that has nothing to be told about it */
export function howPage(
  { knowledge, played: { desk, exercise, now } }: AtBench,
  move: PracticeMove,
): HowPage | undefined {
  if (move.type !== 'looked' && move.type !== 'tried') return undefined
  const { model } = desk.kind
  const book = bookOf(knowledge, model.kind.id)
  const step = move.type === 'looked' ? model.steps.find(({ id }) => id === move.step) : undefined
  const fix = move.type === 'tried' ? model.fixes.find(({ id }) => id === move.fix) : undefined
  const action = step ?? fix
  if (!action) return undefined
  const plain = (lines: readonly string[]) => lines.map((it) => ({ do: it, caution: '' }))
  const first = missingSetups(model, action.setups, now.situation.standing).flatMap(({ id }) => {
    const setup = model.setups.find((it) => it.id === id)
    return setup ? [{ name: setup.name, lines: plain(setup.how) }] : []
  })
  const title = step?.title ?? fix?.name ?? ''
  const own: Part = {
    name: first.length > 0 ? 'Then' : '',
    lines: step
      ? plain(step.how)
      : (fix?.steps.map((it) => ({ do: it.do, caution: it.caution ?? '' })) ?? []),
  }
  const drawing = lineDrawing(action.drawing, title)
  const part = step ? partOfStep(book, step) : partOfFix(book, fix!.id)
  const home = exerciseHref(exercise.id)
  return {
    frame: plainFrame(title, 'practice'),
    title,
    tells: step?.tells ?? '',
    cautions: action.cautions,
    tools: [...(fix?.parts.map(({ name }) => name) ?? []), ...action.tools].join(', '),
    drawing,
    where: drawing ? null : partsMarked(model.kind, new Set([part])),
    parts: [...first, own].filter(({ lines }) => lines.length > 0),
    action: `${home}/moves`,
    seen: exercise.moves.length,
    move: keyOf(move),
    back: home,
  }
}
