import type { Tool } from '../../shared/tool.js'
import type { AtHand } from '../wiring/deps.js'

/** What a tool should make a minute, as somebody said it or a sound twin made it; the last word counts. */
export async function keepStrokes(hand: AtHand, tool: Tool, strokes: number | undefined): Promise<void> {
  if (strokes === undefined || strokes === tool.details.strokes) return
  await hand.tools.change(tool.id, { details: { ...tool.details, strokes } }, hand.now().toISOString())
}
