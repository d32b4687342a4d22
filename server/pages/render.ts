/** The only door to the views: a view sees one object, `page`, and nothing else. */
import ejs from 'ejs'
import type { TemplateFunction } from 'ejs'
import type { Express, Response } from 'express'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { AnswersPage } from './answers-page.js'
import type { ChangePage } from './change-page.js'
import type { ComplaintPage } from './complaint-page.js'
import type { ConflictPage } from './conflict-page.js'
import type { CuredPage } from './cured-page.js'
import type { DangerPage } from './danger-page.js'
import type { EndingPage } from './ending-page.js'
import type { FinishPage } from './finish-page.js'
import type { FinishedPage } from './finished-page.js'
import type { FixPage } from './fix-page.js'
import type { IdentifyPage } from './identify-page.js'
import type { NowPage } from './now-page.js'
import type { ProblemPage } from './problem-page.js'
import type { ProofPage } from './proof-table.js'
import type { RetirePage } from './retire-page.js'
import type { ReturnPage } from './return-page.js'
import type { ShopPage } from './shop-page.js'
import type { SlipPage } from './slip-page.js'
import type { StartPage } from './start-page.js'
import type { StepPage } from './step-page.js'
import type { MistakePage, StopPage } from './stop-page.js'
import type { PracticeBenchPage } from './practice/bench-page.js'
import type { ClassListPage } from './practice/class-list-page.js'
import type { ClassPage } from './practice/class-page.js'
import type { DoorPage } from './practice/door-page.js'
import type { HearsayPage } from './practice/hearsay-page.js'
import type { ConfusionLessonPage } from './practice/confusion-lesson-page.js'
import type { LessonsPage } from './practice/lessons-page.js'
import type { PartLessonPage } from './practice/part-lesson-page.js'
import type { LearnerPage } from './practice/learner-page.js'
import type { PracticeMovesPage } from './practice/moves-page.js'
import type { PracticePointsPage } from './practice/points-page.js'
import type { RecordPage } from './practice/record-page.js'
import type { SetPage } from './practice/set-page.js'
import type { SkillsPage } from './practice/skills-page.js'
import type { WhyPage } from './why-page.js'
import type { LabPage } from './lab-page.js'
import type { WorthPage } from './worth-page.js'
import type { Noticed } from './rulebook-notice.js'
import type { CardPage } from './practice/card-page.js'
import type { CardsPage } from './practice/cards-page.js'
import type { DebriefPage, DebriefWaitPage } from './practice/debrief-page.js'
import type { EntryPage, ListPage } from './rulebook-page.js'

/** Every view with the model that it needs. */
export interface Pages {
  answers: AnswersPage
  change: ChangePage
  complaint: ComplaintPage
  conflict: ConflictPage
  cured: CuredPage
  danger: DangerPage
  ending: EndingPage
  finish: FinishPage
  finished: FinishedPage
  fix: FixPage
  identify: IdentifyPage
  lab: Noticed<LabPage>
  mistake: MistakePage
  now: NowPage
  'practice-card': CardPage
  'practice-cards': CardsPage
  'practice-debrief': DebriefPage
  'practice-debrief-wait': DebriefWaitPage
  problem: ProblemPage
  'practice-bench': PracticeBenchPage
  'practice-class': ClassPage
  'practice-classes': ClassListPage
  'practice-door': DoorPage
  'practice-hearsay': HearsayPage
  'practice-learner': LearnerPage
  'practice-lesson-confusion': ConfusionLessonPage
  'practice-lesson-part': PartLessonPage
  'practice-lessons': LessonsPage
  'practice-moves': PracticeMovesPage
  'practice-points': PracticePointsPage
  'practice-record': RecordPage
  'practice-set': SetPage
  'practice-skills': SkillsPage
  proof: Noticed<ProofPage>
  'rulebook-entry': Noticed<EntryPage>
  'rulebook-list': Noticed<ListPage>
  retire: RetirePage
  return: ReturnPage
  shop: ShopPage
  slip: SlipPage
  start: StartPage
  step: StepPage
  stop: StopPage
  why: WhyPage
  worth: WorthPage
}

/** The names, for the test that compares them with the files in `views/pages/`. */
export const pageNames = [
  'answers',
  'change',
  'complaint',
  'conflict',
  'cured',
  'danger',
  'ending',
  'finish',
  'finished',
  'fix',
  'identify',
  'lab',
  'mistake',
  'now',
  'practice-card',
  'practice-cards',
  'practice-debrief',
  'practice-debrief-wait',
  'problem',
  'practice-bench',
  'practice-class',
  'practice-classes',
  'practice-door',
  'practice-hearsay',
  'practice-learner',
  'practice-lesson-confusion',
  'practice-lesson-part',
  'practice-lessons',
  'practice-moves',
  'practice-points',
  'practice-record',
  'practice-set',
  'practice-skills',
  'proof',
  'rulebook-entry',
  'rulebook-list',
  'retire',
  'return',
  'shop',
  'slip',
  'start',
  'step',
  'stop',
  'why',
  'worth',
] as const satisfies readonly (keyof Pages)[]

const views = fileURLToPath(new URL('../../views', import.meta.url))

/**
 * Register our own engine: EJS ignores Express's `view options`, and only with `strict` and named
 * locals does a mistyped variable fail in the first test instead of printing nothing.
 *
 * A view puts in a partial with `part('suspects', itsPage)`. EJS's own `include` would copy all its options
 * and look for the file each time, some thirty times a page, which took longer than the page itself.
 */
export function setUpViews(app: Express, { production }: { readonly production: boolean }): void {
  const options = {
    strict: true,
    destructuredLocals: ['page', 'part'],
    // The lines of a view belong in a developer's error, not in every page's making.
    compileDebug: !production,
    escape: escapeText,
  }
  const compiled = new Map<string, TemplateFunction>()
  const viewAt = (path: string): TemplateFunction => {
    const known = compiled.get(path)
    if (known) return known
    const view = ejs.compile(readFileSync(path, 'utf8'), { ...options, filename: path })
    if (production) compiled.set(path, view)
    return view
  }
  const part = (name: string, page: unknown): string =>
    viewAt(`${views}/partials/${name}.ejs`)({ page, part })

  app.engine('ejs', (path: string, data: object, done: (error: unknown, html?: string) => void) => {
    let html: string
    try {
      html = viewAt(path)({ page: (data as { page?: unknown }).page, part })
    } catch (error) {
      return done(error)
    }
    done(null, html)
  })
  app.set('view engine', 'ejs')
  app.set('views', views)
  // Where a view lies is looked up once, not for every page.
  app.set('view cache', production)
}

const special = /[&<>'"]/

/** Text safe in HTML. Drawings print hundreds of numbers a page, so what needs no escaping is let through early. */
function escapeText(value: unknown): string {
  if (typeof value === 'number') return String(value)
  return typeof value === 'string' && !special.test(value) ? value : ejs.escapeXML(value)
}

/** Send the view `name` with its model; `res.status()` is the caller's. */
export function renderPage<Name extends keyof Pages>(res: Response, name: Name, page: Pages[Name]): void {
  res.render(`pages/${name}`, { page })
}

/** A view chosen by its model, with the model. */
export type Shown = {
  [Name in keyof Pages]: { readonly name: Name; readonly page: Pages[Name] }
}[keyof Pages]

/** Send a view that was chosen by somebody else. */
export function showPage(res: Response, { name, page }: Shown): void {
  res.render(`pages/${name}`, { page })
}
