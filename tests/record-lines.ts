/**
 * Generated JSON with one record a line, so that a file is as long as there are records and a change shows as the
 * records that changed: an element of a list is a record, and so is whatever is short or holds nothing deeper.
 */
export function recordLines(value: unknown, indent = ''): string {
  const text = JSON.stringify(value)
  if (typeof value !== 'object' || value === null || isFlat(value) || text.length < short) return text
  const deeper = `${indent}  `
  const [open, close, items] = Array.isArray(value)
    ? ['[', ']', value.map((it) => JSON.stringify(it))]
    : [
        '{',
        '}',
        Object.entries(value)
          .filter(([, it]) => it !== undefined)
          .map(([key, it]) => `${JSON.stringify(key)}: ${recordLines(it, deeper)}`),
      ]
  const lines = `${open}\n${items.map((it) => `${deeper}${it}`).join(',\n')}\n${indent}${close}`
  return indent === '' ? `${lines}\n` : lines
}

const short = 480

const isFlat = (value: object): boolean =>
  Object.values(value).every((it) => typeof it !== 'object' || it === null)
