/** Milliseconds after which whatever waits gives up for good: ten minutes, far beyond what any machine in use needs. */
export const giveUp = 600_000
