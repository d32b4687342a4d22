/** The people of the shop, how they sign in, and on which devices they are. Instants are ISO 8601, UTC. */
import type { Person, Role } from '../../shared/person.js'

export interface PersonBook {
  /** By name. */
  people(): Promise<Person[]>
  /** @throws NotFound */
  person(id: string): Promise<Person>
  /** Whoever has this name, whatever its capitals, with what their passphrase is checked by; null for nobody. */
  byName(name: string): Promise<{ readonly person: Person; readonly passphrase: string | null } | null>
  /** Without a passphrase: they choose one by a link. @throws BadRequest (422, field `name`) for no name, or one taken */
  add(it: { name: string; role: Role; at: string }): Promise<Person>
  /** @throws NotFound, BadRequest as `add` does, or BadRequest (422) where no lead would be left */
  change(id: string, to: { name: string; role: Role }): Promise<Person>
  /** Their record goes; what they did stays, by "somebody". @throws NotFound, or BadRequest where no lead would be left */
  remove(id: string): Promise<void>
  /** One of two records of somebody goes; what was done under either is by the other. @throws as `remove` does */
  merge(id: string, into: string): Promise<void>
  /** With it every device is signed out. @param checked what `passphrase.ts` made of it */
  keepPassphrase(id: string, checked: string): Promise<void>

  /** A link that works once. @param forPerson null: whoever opens it becomes the first lead */
  makeLink(code: string, forPerson: string | null, until: string): Promise<void>
  /** Whose it is; undefined where it does not work (any more). */
  linkOf(code: string, now: string): Promise<string | null | undefined>
  /** @returns false where it was used already */
  useLink(code: string): Promise<boolean>

  /** @param key what the device is known by from now on; only a digest of it is kept */
  signIn(id: string, key: string, at: string): Promise<void>
  /** Who is signed in there; null for nobody, or for nobody since `after`. */
  signedIn(key: string, now: string, after: string): Promise<Person | null>
  signOut(key: string): Promise<void>
  /** A phone that joined a class by its word and number: it practises for these learners, and sees nothing of the shop. */
  givePass(key: string, learners: readonly string[], now: string, until: string): Promise<void>
  /** The learners of that pass; undefined where it is none (any more). */
  passOf(key: string, now: string): Promise<readonly string[] | undefined>
  signOutEverywhere(id: string): Promise<void>
}
