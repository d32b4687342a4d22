/** A stored exercise as today's rulebook reads it: what was renamed since is named by its new id. */
import type { Knowledge } from '../../shared/knowledge.js'
import type { Exercise, PracticeMove, Setting } from '../../shared/practice.js'

type Moved = Knowledge['moved']
type Folder = 'kinds' | 'levels' | 'causes' | 'setups' | 'steps' | 'questions' | 'fixes' | 'stops' | 'slips'

/**
 * Before anything else is done with a stored exercise. Draws are keyed by ids: under a renamed one they come out
 * anew, so an exercise from before may show other answers than it did.
 */
export function withIdsOfToday(exercise: Exercise, moved: Moved): Exercise {
  if (Object.keys(moved).length === 0) return exercise
  const today = (folder: Folder, id: string): string => moved[folder]?.[id] ?? id
  return {
    ...exercise,
    kind: today('kinds', exercise.kind),
    level: today('levels', exercise.level),
    setting: settingOfToday(exercise.setting, (id) => today('causes', id)),
    moves: exercise.moves.map((move) => moveOfToday(move, today)),
  }
}

const settingOfToday = (setting: Setting, cause: (id: string) => string): Setting => ({
  ...setting,
  ...(setting.causes ? { causes: setting.causes.map(cause) } : {}),
  ...(setting.about === undefined ? {} : { about: cause(setting.about) }),
})

function moveOfToday(move: PracticeMove, today: (folder: Folder, id: string) => string): PracticeMove {
  switch (move.type) {
    case 'stood':
    case 'put-back':
      return { ...move, setup: today('setups', move.setup) }
    case 'looked':
      return {
        ...move,
        step: today('steps', move.step),
        ...(move.question === undefined ? {} : { question: today('questions', move.question) }),
      }
    case 'tried':
      return { ...move, fix: today('fixes', move.fix) }
    case 'made-safe':
      return { ...move, stop: today('stops', move.stop) }
    case 'dared':
      return { ...move, act: today('slips', move.act) }
    case 'spread': {
      const points: Record<string, number> = {}
      for (const [id, given] of Object.entries(move.spread.points)) {
        const now = today('causes', id)
        points[now] = (points[now] ?? 0) + given
      }
      return { ...move, spread: { ...move.spread, points } }
    }
    default:
      return move
  }
}
