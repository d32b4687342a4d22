/** Who wrote what, and when. */
import type { Written } from '../../shared/person.js'

/** What is written about: by its id, but for the figures, of which a shop has one set. */
export type WrittenAbout = 'tool' | 'part' | 'figures' | 'care' | 'class'

export interface WrittenLog {
  /** Lately written first. @param id empty for the figures */
  about(what: WrittenAbout, id: string, most: number): Promise<Written[]>
  /** What is no more, by what it was called; lately removed first. */
  removed(what: WrittenAbout, most: number): Promise<Written[]>
  /** Was that done by them? @param person id */
  isBy(person: string, what: WrittenAbout, did: string): Promise<boolean>
}
