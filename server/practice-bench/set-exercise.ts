/** What an instructor sets for a class: the same tool for all, until it is closed. */
import type { SetExercise } from '../../shared/practice.js'
import { NotFound } from '../errors.js'
import type { FirstHeard } from '../practice/first-heard.js'
import { firstHeard } from '../practice/first-heard.js'
import type { AtHand } from '../wiring/deps.js'

/** @returns what was set with what a learner hears first of it; where no such tool can be drawn, why, and nothing is set */
export async function setForClass(
  { prepared, register, now }: AtHand,
  ofClass: string,
  tool: Pick<SetExercise, 'kind' | 'level' | 'seed' | 'setting'>,
): Promise<(FirstHeard & { ok: false }) | { ok: true; set: SetExercise; complaint: readonly string[] }> {
  const heard = await firstHeard(prepared, tool)
  if (!heard.ok) return heard
  const set = await register.addSetExercise({ ...tool, class: ofClass, at: now().toISOString() })
  return { ...heard, set }
}

/** From then on nobody goes on with it, and the fault is told. @throws NotFound for what was set for another class */
export async function closeSet({ register, now }: AtHand, ofClass: string, id: string): Promise<SetExercise> {
  await isOf(register, ofClass, id)
  return register.closeSetExercise(id, now().toISOString())
}

/** One set by mistake goes. @throws NotFound, or BadRequest (422) where somebody has begun it */
export async function removeSet({ register }: AtHand, ofClass: string, id: string): Promise<void> {
  await isOf(register, ofClass, id)
  await register.removeSetExercise(id)
}

async function isOf(register: AtHand['register'], ofClass: string, id: string): Promise<void> {
  if ((await register.setExercise(id)).class !== ofClass)
    throw new NotFound(`an exercise "${id}" set for this class`)
}
