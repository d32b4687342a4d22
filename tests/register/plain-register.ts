/** What a register does, as plainly as can be: lists in memory, everything looked for from the front. */
import { BadRequest, NotFound, StaleForm } from '../../server/errors.js'
import type { Register } from '../../server/register/register.js'
import type {
  ClassDoor,
  Exercise,
  ExerciseSummary,
  Learner,
  Lesson,
  ExerciseOutcome,
  PracticeClass,
  SetExercise,
  SignedOff,
} from '../../shared/practice.js'

/** ICU's own comparison: capitals and forms of a letter aside, accents not. */
const { compare } = new Intl.Collator('und', { sensitivity: 'accent' })
const isSame = (one: string, other: string) => compare(spaced(one), spaced(other)) === 0
const spaced = (name: string) => name.trim().split(/\s+/).join(' ')

export function plainRegister(newKey: () => string): Register {
  const classes: PracticeClass[] = []
  const learners: Learner[] = []
  const sets: SetExercise[] = []
  const exercises: Exercise[] = []
  const outcomes = new Map<string, ExerciseOutcome>()
  const signatures: SignedOff[] = []
  const doors: ClassDoor[] = []
  const lessons: Lesson[] = []
  const one = <Thing extends { id: string }>(list: Thing[], id: string): Thing => {
    const found = list.find((it) => it.id === id)
    if (!found) throw new NotFound(id)
    return found
  }
  const latest = <Thing>(list: Thing[], when: (it: Thing) => string): Thing[] =>
    [...list].sort((a, b) => (when(a) < when(b) ? 1 : -1))
  const nobodyElse = (name: string, list: { id: string; name: string }[], own?: string) => {
    if (list.some((it) => it.id !== own && isSame(it.name, name)))
      throw new BadRequest('taken', { status: 422 })
  }
  const inClass = (id: string) => learners.filter((it) => it.class === id)
  const copy = <Thing>(it: Thing): Promise<Thing> => Promise.resolve(structuredClone(it))

  return {
    classes: () => copy(classes),
    classOf: async (id) => copy(one(classes, id)),
    async addClass({ name, at }) {
      nobodyElse(name, classes)
      classes.push({ id: newKey(), name: name.trim(), since: at })
      return copy(classes.at(-1)!)
    },
    async removeClass(id) {
      one(classes, id)
      if (inClass(id).some((it) => exercises.some(({ learner }) => learner === it.id)))
        throw new BadRequest('practised', { status: 422 })
      classes.splice(classes.indexOf(one(classes, id)), 1)
      for (const it of inClass(id)) learners.splice(learners.indexOf(it), 1)
    },
    learners: (ofClass) => copy(ofClass === undefined ? learners : inClass(ofClass)),
    learner: async (id) => copy(one(learners, id)),
    async addLearner({ name, class: ofClass, at }) {
      one(classes, ofClass)
      nobodyElse(name, inClass(ofClass))
      learners.push({ id: newKey(), name: name.trim(), class: ofClass, since: at })
      return copy(learners.at(-1)!)
    },
    async changeLearner(id, { name, class: ofClass }) {
      one(classes, ofClass)
      const it = one(learners, id)
      nobodyElse(name, inClass(ofClass), id)
      Object.assign(it, { name: name.trim(), class: ofClass })
      return copy(it)
    },
    exercises: (of) =>
      copy(
        latest(
          exercises.filter(({ learner }) =>
            'learner' in of ? learner === of.learner : one(learners, learner).class === of.class,
          ),
          ({ changedAt }) => changedAt,
        ).map(({ moves, ...it }): ExerciseSummary => ({
          ...it,
          moveCount: moves.length,
          outcome: outcomes.get(it.id) ?? null,
        })),
      ),
    exercise: async (id) => copy(one(exercises, id)),
    async begin({ learner, kind, level, seed, setting, setAs, at }) {
      const who = one(learners, learner)
      if (setAs !== undefined && one(sets, setAs).class !== who.class) throw new NotFound(setAs)
      const there = exercises.find(
        (it) => it.learner === learner && setAs !== undefined && it.setAs === setAs,
      )
      if (there) return copy(there)
      const begun = { learner, kind, level, seed, setting, begunAt: at, changedAt: at, moves: [] }
      exercises.push({ id: newKey(), ...begun, ...(setAs !== undefined && { setAs }) })
      return copy(exercises.at(-1)!)
    },
    async makeMove(id, move, at, expectedCount, outcome = null) {
      const it = one(exercises, id)
      if (it.moves.length !== expectedCount) throw new StaleForm(id, 'exercise')
      it.moves.push(...[move].flat())
      it.changedAt = at
      if (outcome) outcomes.set(id, structuredClone(outcome))
      return copy(it)
    },
    unscored: () => copy([...outcomes].flatMap(([id, { score }]) => (score === null ? [id] : []))),
    outcome: async (id) => copy(outcomes.get(one(exercises, id).id) ?? null),
    async keepOutcome(id, outcome) {
      one(exercises, id)
      if (typeof outcomes.get(id)?.score !== 'number') outcomes.set(id, structuredClone(outcome))
    },
    setExercises: (ofClass) =>
      copy(
        latest(
          sets.filter((it) => it.class === ofClass),
          ({ setAt }) => setAt,
        ),
      ),
    setExercise: async (id) => copy(one(sets, id)),
    async addSetExercise({ at, ...it }) {
      one(classes, it.class)
      sets.push({ id: newKey(), ...it, setAt: at })
      return copy(sets.at(-1)!)
    },
    async closeSetExercise(id, at) {
      const it = one(sets, id)
      it.closedAt ??= at
      return copy(it)
    },
    async removeSetExercise(id) {
      const it = one(sets, id)
      if (exercises.some(({ setAs }) => setAs === id)) throw new BadRequest('begun', { status: 422 })
      sets.splice(sets.indexOf(it), 1)
    },
    doorOf: (ofClass) => copy(doors.find((it) => it.class === ofClass) ?? null),
    classBehind: (word) => copy(doors.find((it) => it.word === word) ?? null),
    hangDoor(door) {
      if (doors.some((it) => it.class === door.class || it.word === door.word)) return Promise.resolve(false)
      doors.push({ ...door })
      return Promise.resolve(true)
    },
    latestLesson: (ofClass) =>
      copy(
        latest(
          lessons.filter((it) => it.class === ofClass),
          ({ startedAt }) => startedAt,
        )[0] ?? null,
      ),
    async startLesson(it) {
      one(classes, it.class)
      lessons.push({ id: newKey(), ...it })
      return copy(lessons.at(-1)!)
    },
    async moveLesson(to, from) {
      const it = one(lessons, to.id)
      if (it.parts.length !== from.parts.length) throw new StaleForm(to.class, 'lesson')
      Object.assign(it, to)
      return copy(it)
    },
    signedOff: (learner) => copy(signatures.filter((it) => it.learner === learner)),
    async signOff(...all) {
      for (const it of all) {
        one(learners, it.learner)
        const there = signatures.find(({ learner, skill }) => learner === it.learner && skill === it.skill)
        if (there) Object.assign(there, it)
        else signatures.push({ ...it })
      }
    },
    strikeSignature(learner, skill) {
      const there = signatures.findIndex((it) => it.learner === learner && it.skill === skill)
      if (there >= 0) signatures.splice(there, 1)
      return Promise.resolve()
    },
  }
}
