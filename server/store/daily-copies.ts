/** Dated copies in a folder: one each night, and whenever somebody asks. */
import { mkdirSync, readdirSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'

/** A copy that was made. */
interface KeptCopy {
  readonly name: string
  readonly path: string
  readonly made: Date
  readonly bytes: number
}

export interface Copies {
  /** where they lie */
  readonly folder: string
  /** latest first */
  all(): KeptCopy[]
  /** One more, now. */
  make(): Promise<KeptCopy>
  /** The night's copy, unless it was made; those beyond the number that is kept go. */
  nightly(): Promise<void>
}

const ofNight = /^clipperwright-\d{4}-\d\d-\d\d\.db$/
const ofAny = /^clipperwright-[\d-]+\.db$/

/**
 * @param copy makes one at a path
 * @param keep how many nights are kept; 0 makes none at night
 */
export function copiesIn(
  folder: string,
  copy: (to: string) => Promise<void>,
  now: () => Date,
  keep: number,
): Copies {
  const all = (): KeptCopy[] => {
    let names: string[]
    try {
      names = readdirSync(folder).filter((name) => ofAny.test(name))
    } catch {
      return []
    }
    return names
      .map((name) => {
        const path = join(folder, name)
        const { mtime, size } = statSync(path)
        return { name, path, made: mtime, bytes: size }
      })
      .sort((a, b) => b.made.getTime() - a.made.getTime() || (a.name < b.name ? 1 : -1))
  }
  const made = async (name: string): Promise<KeptCopy> => {
    mkdirSync(folder, { recursive: true })
    await copy(join(folder, name))
    return all().find((copy) => copy.name === name)!
  }
  return {
    folder,
    all,
    make: () => made(`clipperwright-${dayOf(now())}-${clockOf(now())}.db`),
    async nightly() {
      const name = `clipperwright-${dayOf(now())}.db`
      if (keep === 0 || all().some((copy) => copy.name === name)) return
      await made(name)
      const nights = all().filter((copy) => ofNight.test(copy.name))
      for (const { path } of nights.sort((a, b) => (a.name < b.name ? 1 : -1)).slice(keep)) rmSync(path)
    },
  }
}

const two = (number: number): string => String(number).padStart(2, '0')
/** By the clock of the shop. */
const dayOf = (at: Date): string => `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`
const clockOf = (at: Date): string => [at.getHours(), at.getMinutes(), at.getSeconds()].map(two).join('')
