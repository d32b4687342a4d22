import type { Kysely, Migration } from 'kysely'

/**
 * The shop's figures as a record: a currency, and amounts as integers in its minor unit. Before, they were sums in major
 * units of a currency that nobody had named; it is taken to be the euro, of two digits, until the shop says otherwise.
 */
export const shopRecord: Migration = {
  async up(unknown: Kysely<unknown>): Promise<void> {
    await unknown.schema.alterTable('shop').renameColumn('figures', 'record').execute()
    const db = unknown as Kysely<{ shop: { only: number; record: string } }>
    for (const { only, record } of await db.selectFrom('shop').selectAll().execute()) {
      const now = JSON.stringify(recordFrom(JSON.parse(record) as Readonly<Record<string, unknown>>))
      await db.updateTable('shop').set({ record: now }).where('only', '=', only).execute()
    }
  },
}

/** Where each sum in major units went. What a service cost held its carriage, and was one sum, not a range. */
const amounts: Readonly<Record<string, readonly string[]>> = {
  rate: ['minute'],
  sendIn: ['feeLow', 'feeHigh'],
  sendInVain: ['inspection'],
  dayWithout: ['dayWithout'],
  replace: ['newPrice'],
}
const others: Readonly<Record<string, readonly string[]>> = {
  turnaroundDays: ['daysAwayLow', 'daysAwayHigh'],
  partDays: ['partDays'],
  partsToBeHad: ['partsToBeHad'],
  serviceMends: ['serviceMends'],
  skill: ['skill'],
  canSafetyTest: ['canSafetyTest'],
  inWarranty: ['inWarranty'],
}

function recordFrom(before: Readonly<Record<string, unknown>>): object {
  const figures: Record<string, unknown> = {}
  for (const [name, value] of Object.entries(before)) {
    // A figure that nobody had told stays untold.
    if (value === null) continue
    for (const to of amounts[name] ?? []) figures[to] = Math.round(Number(value) * 100)
    for (const to of others[name] ?? []) figures[to] = value
    if (name === 'sendIn') figures['carriage'] = 0
    if (name === 'serviceMends') figures['serviceMends'] = Math.max(0.05, Number(value))
  }
  return { currency: { code: 'EUR', digits: 2 }, figures }
}
