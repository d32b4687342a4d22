/** The same thing, frozen all the way down: whoever writes to it throws. */
export function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value
  Object.freeze(value)
  for (const part of Object.values(value)) frozen(part)
  return value
}
