import type { LogNames } from '../../pages/care/log-page.js'
import type { AtHand } from '../../wiring/deps.js'

/** The names that a log is read with. */
export const logNames = async ({ knowledge, tools, habits }: AtHand): Promise<LogNames> => ({
  knowledge,
  tools: new Map((await tools.list()).map(({ id, name }) => [id, name])),
  zone: habits.record.zone,
})
