/** The order in which a file lists causes with their numbers: what counts most is read first. */

type Strengths = Readonly<Record<string, number | Readonly<Record<string, number>>>>

/** Strongest first, by the greatest number where kinds differ; then by name. The same object when it is so already. */
export function strongestFirst<Of extends Strengths>(strengths: Of): Of {
  const greatest = (value: Strengths[string]): number =>
    typeof value === 'number' ? value : Math.max(0, ...Object.values(value))
  const entries = Object.entries(strengths)
  const sorted = [...entries].sort(
    ([a, one], [b, two]) => greatest(two) - greatest(one) || (a < b ? -1 : a > b ? 1 : 0),
  )
  return sorted.every(([id], i) => id === entries[i]![0]) ? strengths : (Object.fromEntries(sorted) as Of)
}
