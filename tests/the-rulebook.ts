/**
 * The project's own rulebook, read and prepared once for all test files of a worker: to do so for each took more time
 * than what they test. What is handed out is shared, so it is frozen: a test that changes rules makes rules of its own.
 */
import type { Knowledge } from '../shared/knowledge.js'
import { glance } from '../server/diagnosis/plan/reach.js'
import type { Prepared } from '../server/diagnosis/prepare.js'
import { loadKnowledge } from '../server/rulebook/load.js'
import { inUseOf } from './in-use.js'
import { frozen } from './laws/frozen.js'

/** A mistake in the rulebook ends every test file that needs it, with the list of mistakes. */
export const knowledge: Knowledge = frozen(loadKnowledge())

export const preparedRulebook = async (): Promise<Prepared> => (await inUseOf(knowledge)).prepared

/** The same, its plans looking one action ahead: where it is no matter how good they are. */
export const glancingRulebook = async (): Promise<Prepared> => (await inUseOf(knowledge, glance)).prepared
