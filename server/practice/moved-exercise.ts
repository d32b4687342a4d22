import type { Moved } from '../../shared/ids-of-today.js'
import { withIdsOfToday } from '../../shared/ids-of-today.js'
import { Exercise } from '../../shared/practice.js'

/**
 * A stored exercise as today's rulebook reads it, before anything else is done with it. Draws are keyed by ids: under a
 * renamed one they come out anew, so an exercise from before may show other answers than it did.
 */
export const exerciseOfToday = (stored: Exercise, moved: Moved): Exercise =>
  withIdsOfToday(Exercise, stored, moved)
