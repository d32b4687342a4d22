/** A lesson changed by several at once: phones join while its instructor goes on. */
import type { Lesson } from '../../shared/practice.js'
import { StaleForm } from '../errors.js'
import type { Register } from '../register/register.js'

/** @param change made anew where somebody else changed the lesson meanwhile; null leaves it as it is */
export async function changeLesson(
  register: Register,
  ofClass: string,
  change: (it: Lesson) => Lesson | null,
): Promise<Lesson | null> {
  for (;;) {
    const from = await register.latestLesson(ofClass)
    const to = from && change(from)
    if (!from || !to) return from
    try {
      return await register.moveLesson(to, from)
    } catch (error) {
      if (!(error instanceof StaleForm)) throw error
    }
  }
}
