import type { Habits } from '../../shared/habits.js'
import type { CareLog } from './care-log.js'

/** The shop's habits at hand, and the way to change them for good. */
export interface ShopHabits {
  /** one object until another one is kept */
  readonly record: Habits
  keep(record: Habits): Promise<void>
}

/** @param zone of the clock that counts while the shop has named none */
export async function openHabits(
  store: Pick<CareLog, 'habits' | 'keepHabits'>,
  zone: string,
): Promise<ShopHabits> {
  let record: Habits = (await store.habits()) ?? { zone, everyDays: {}, calendarKey: null, learns: true }
  return {
    get record() {
      return record
    },
    async keep(changed) {
      await store.keepHabits(changed)
      record = changed
    },
  }
}
