/** The rate over time as a drawing: a line of strokes a minute, gaps where none were heard, marks at drop-outs. */
import type { Heard } from '../../server/listening/heard.js'

const svg = 'http://www.w3.org/2000/svg'
const [width, height, left, bottom] = [360, 120, 44, 18]

export function drawTrack(
  { track, dropOuts }: Pick<Heard, 'track' | 'dropOuts'>,
  seconds: number,
): SVGElement {
  const rates = track.flatMap(({ perMinute }) => perMinute ?? [])
  const middle = rates.length > 0 ? [...rates].sort((a, b) => a - b)[rates.length >> 1]! : 0
  // a tenth to either side at least, so that a steady tool looks steady
  const low = Math.min(middle * 0.9, ...rates)
  const high = Math.max(middle * 1.1, ...rates)
  const x = (at: number) => left + ((width - left - 4) * at) / seconds
  const y = (rate: number) => 6 + (height - bottom - 10) * (1 - (rate - low) / Math.max(1, high - low))
  const root = made('svg', { viewBox: `0 0 ${width} ${height}`, role: 'img' })
  root.append(
    made(
      'title',
      {},
      rates.length > 0 ? `Strokes a minute over ${Math.round(seconds)} seconds` : 'No strokes heard',
    ),
  )
  if (rates.length === 0) return root
  for (const rate of [low, middle, high]) {
    root.append(
      made('line', {
        x1: left,
        x2: width - 4,
        y1: y(rate),
        y2: y(rate),
        stroke: 'currentColor',
        'stroke-opacity': 0.25,
      }),
      made('text', { x: left - 4, y: y(rate) + 4, 'text-anchor': 'end' }, String(Math.round(rate))),
    )
  }
  root.append(made('text', { x: left, y: height - 3 }, '0 s'))
  root.append(made('text', { x: width - 4, y: height - 3, 'text-anchor': 'end' }, `${Math.round(seconds)} s`))
  for (const { at, seconds: lasts } of dropOuts) {
    const wide = Math.max(3, x(lasts) - x(0))
    root.append(
      made('rect', {
        x: x(at) - wide / 2,
        width: wide,
        y: 6,
        height: height - bottom - 6,
        fill: 'currentColor',
        'fill-opacity': 0.35,
      }),
    )
  }
  let path = ''
  let pen = 'M'
  for (const { at, perMinute } of track) {
    if (perMinute === null) pen = 'M'
    else {
      path += `${pen}${x(at).toFixed(1)} ${y(perMinute).toFixed(1)}`
      pen = 'L'
    }
  }
  root.append(made('path', { d: path, fill: 'none', stroke: 'currentColor', 'stroke-width': 2.5 }))
  return root
}

function made(name: string, attributes: Record<string, string | number>, text = ''): SVGElement {
  const element = document.createElementNS(svg, name)
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value))
  element.textContent = text
  return element
}
