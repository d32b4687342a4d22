/** The class register: classes, the people who learn in them, their exercises, and what was signed off. */
import type {
  ClassDoor,
  Exercise,
  ExerciseSummary,
  Learner,
  Lesson,
  ExerciseOutcome,
  PracticeClass,
  PracticeMove,
  SetExercise,
  Setting,
  SignedOff,
} from '../../shared/practice.js'

/** Instants are ISO 8601, UTC. Ids are made by the store. */
export interface Register {
  /** By name. */
  classes(): Promise<PracticeClass[]>
  /** @throws NotFound */
  classOf(id: string): Promise<PracticeClass>
  /** @throws BadRequest (422, field `name`) for no name, or one that a class has already, whatever its capitals */
  addClass(it: { name: string; at: string }): Promise<PracticeClass>

  /** One made by mistake. @throws NotFound, or BadRequest (422) where somebody in it has practised: nothing is lost by a tap */
  removeClass(id: string): Promise<void>

  /** By name; everybody, or those of one class. */
  learners(ofClass?: string): Promise<Learner[]>
  /** @throws NotFound */
  learner(id: string): Promise<Learner>
  /** @throws NotFound for the class, BadRequest (422, field `name`) for no name, or one that somebody in it has */
  addLearner(it: { name: string; class: string; at: string }): Promise<Learner>
  /** To another class, or under another name; the record goes along. @throws as `addLearner` */
  changeLearner(id: string, to: { name: string; class: string }): Promise<Learner>

  /** Lately changed first; a learner's or a whole class's, without their moves. */
  exercises(of: { learner: string } | { class: string }): Promise<ExerciseSummary[]>
  /** @throws NotFound */
  exercise(id: string): Promise<Exercise>
  /**
   * A tool to practise on. What was set for a class is done once: begun again, it is the one that was begun.
   *
   * @throws NotFound for the learner, or for what was set when it is not for the learner's class
   */
  begin(
    it: Pick<Exercise, 'learner' | 'kind' | 'level' | 'seed' | 'setting' | 'setAs'> & { at: string },
  ): Promise<Exercise>
  /**
   * Adds one move, or several that belong together (all or none).
   *
   * @param expectedCount how many moves the sender had seen
   * @param outcome what the exercise comes to with them, where they end it: kept with them or not at all
   * @returns the exercise with them
   * @throws NotFound, StaleForm when the stored count differs from `expectedCount`, or BadRequest (422) when there is
   *   room for the end only; nothing is stored then
   */
  makeMove(
    id: string,
    move: PracticeMove | readonly PracticeMove[],
    at: string,
    expectedCount: number,
    outcome?: ExerciseOutcome | null,
  ): Promise<Exercise>
  /** Ids of those that are over and have no score yet, because the program was stopped first. */
  unscored(): Promise<string[]>
  /** What it came to; null while nothing is kept. @throws NotFound */
  outcome(id: string): Promise<ExerciseOutcome | null>
  /**
   * Kept, or kept anew once the score is known; what is kept with its score stands. Does not count as a change of the
   * exercise. @throws NotFound
   */
  keepOutcome(id: string, outcome: ExerciseOutcome): Promise<void>

  /** Latest first. */
  setExercises(ofClass: string): Promise<SetExercise[]>
  /** @throws NotFound */
  setExercise(id: string): Promise<SetExercise>
  /** @throws NotFound for the class */
  addSetExercise(it: {
    class: string
    kind: string
    level: string
    seed: number
    setting: Setting
    at: string
  }): Promise<SetExercise>

  /** From then on nobody goes on with it, and the fault is told; closed again, it stays as it was. @throws NotFound */
  closeSetExercise(id: string, at: string): Promise<SetExercise>

  /** One set by mistake. @throws NotFound, or BadRequest (422) where somebody has begun it, or it is a lesson’s */
  removeSetExercise(id: string): Promise<void>

  /** How a class is joined; null while no word was given. */
  doorOf(ofClass: string): Promise<ClassDoor | null>
  classBehind(word: string): Promise<ClassDoor | null>
  /** @returns false where the class has a word already, or another class has this one; nothing is stored then */
  hangDoor(door: ClassDoor): Promise<boolean>

  latestLesson(ofClass: string): Promise<Lesson | null>
  startLesson(it: Omit<Lesson, 'id'>): Promise<Lesson>
  /** @param from as the sender had seen it. @throws StaleForm when it has gone on since; nothing is stored then */
  moveLesson(to: Lesson, from: Lesson): Promise<Lesson>

  /** One learner's. */
  signedOff(learner: string): Promise<SignedOff[]>
  /** All of one learner, or none. Signed again, the later signature stands. @throws NotFound for the learner */
  signOff(...all: readonly SignedOff[]): Promise<void>
  /** A signature taken back; nothing happens where there is none. */
  strikeSignature(learner: string, skill: string): Promise<void>
}
