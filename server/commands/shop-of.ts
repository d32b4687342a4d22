import { CannotStart } from '../errors.js'
import type { ShopDatabase } from '../store/shop-database.js'

/**
 * The shop that a command is for: the one that `--shop ID` names, or the only one.
 *
 * @returns its id, and the words of the command without that choice
 * @throws CannotStart where there are several and none is named
 */
export async function shopOf(
  database: Pick<ShopDatabase, 'shops'>,
  words: readonly string[],
): Promise<{ readonly id: string; readonly rest: readonly string[] }> {
  const at = words.indexOf('--shop')
  const rest = at < 0 ? words : words.toSpliced(at, 2)
  const shops = await database.shops()
  const id = at < 0 ? (shops.length === 1 ? shops[0]!.id : undefined) : words[at + 1]
  if (id !== undefined && shops.some((shop) => shop.id === id)) return { id, rest }
  const list = shops.map((shop) => `  ${shop.id}  ${shop.name || '(no name yet)'}`)
  throw new CannotStart([`Say which shop, with --shop ID:`, ...list].join('\n'))
}
