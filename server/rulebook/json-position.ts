/** Where JSON text goes wrong, for a person with an editor open. */

/** A line and column, both counted from 1. */
export interface TextPosition {
  readonly line: number
  readonly column: number
}

/** The first place at which `text` stops being JSON, or undefined when it is JSON. */
export function jsonErrorPosition(text: string): TextPosition | undefined {
  if (failureOf(text) === undefined) return undefined
  // The engine does not always say where. But a prefix of good JSON fails at its very end, and one that
  // holds the bad character fails before it; so the shortest prefix of the second sort ends in it.
  let good = 0
  let bad = text.length + 1
  while (bad - good > 1) {
    const middle = (good + bad) >> 1
    if (failsAtEnd(text.slice(0, middle))) good = middle
    else bad = middle
  }
  const before = text.slice(0, good).split('\n')
  return { line: before.length, column: before.at(-1)!.length + 1 }
}

function failureOf(text: string): string | undefined {
  try {
    JSON.parse(text)
    return undefined
  } catch (error) {
    return (error as SyntaxError).message
  }
}

/** True when the text is right as far as it goes: complete, or only cut short. */
function failsAtEnd(text: string): boolean {
  const message = failureOf(text)
  if (message === undefined || /unexpected end|unterminated string/i.test(message)) return true
  const position = /at position (\d+)/.exec(message)
  return position !== null && Number(position[1]) >= text.length
}
