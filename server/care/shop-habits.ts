import type { Habits } from '../../shared/habits.js'
import type { CareLog } from './care-log.js'

/** The shop's habits at hand, and the way to change them for good. */
export interface ShopHabits {
  /** one object until another one is kept */
  readonly record: Habits
  /** Looks whether another program has changed them. */
  fresh(): Promise<void>
  keep(record: Habits): Promise<void>
}

/** @param zone of the clock that counts while the shop has named none */
export async function openHabits(
  store: Pick<CareLog, 'habits' | 'keepHabits'>,
  zone: string,
): Promise<ShopHabits> {
  const usual: Habits = { zone, everyDays: {}, calendarKey: null, learns: true }
  let record = (await store.habits()) ?? usual
  return {
    get record() {
      return record
    },
    async fresh() {
      const there = (await store.habits()) ?? usual
      // one object for as long as it says the same: what was worked out for it is kept by it
      if (JSON.stringify(there) !== JSON.stringify(record)) record = there
    },
    async keep(changed) {
      await store.keepHabits(changed)
      record = changed
    },
  }
}
