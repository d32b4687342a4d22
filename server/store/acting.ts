/** Who is at work while a request is answered: what is written meanwhile is theirs. */
import { AsyncLocalStorage } from 'node:async_hooks'

const acting = new AsyncLocalStorage<string>()

/** Whatever `work` writes, now or later, is this person's. */
export const as = <Made>(person: string, work: () => Made): Made => acting.run(person, work)

/** null where nobody signs in. */
export const whoActs = (): string | null => acting.getStore() ?? null
