/** The only door to the views: a view sees one object, `page`, and nothing else. */
import ejs from 'ejs'
import type { TemplateFunction } from 'ejs'
import type { Express, Response } from 'express'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { AnswersPage } from './case/answers-page.js'
import type { CasesPage } from './case/cases-page.js'
import type { ChangePage } from './case/change-page.js'
import type { ClearPage } from './case/clear-page.js'
import type { ComplaintPage } from './case/complaint-page.js'
import type { ConflictPage } from './case/conflict-page.js'
import type { CuredPage } from './case/cured-page.js'
import type { DangerPage } from './case/danger-page.js'
import type { EndingPage } from './case/ending-page.js'
import type { FinishPage } from './case/finish-page.js'
import type { FinishedPage } from './case/finished-page.js'
import type { FixPage } from './case/fix-page.js'
import type { IdentifyPage } from './identify/identify-page.js'
import type { NewPage } from './case/new-page.js'
import type { ToolPage } from './case/tool-page.js'
import type { NowPage } from './case/now-page.js'
import type { ProblemPage } from './layout/problem-page.js'
import type { ProofPage } from './rulebook/proof-table.js'
import type { RetirePage } from './decision/retire-page.js'
import type { ReturnPage } from './decision/return-page.js'
import type { DoorFormPage } from './people/door-pages.js'
import type { OtherShopPage } from './people/other-shop-page.js'
import type { PeoplePage } from './people/people-page.js'
import type { BackupPage } from './shop/backup-page.js'
import type { ShopPage } from './shop/shop-page.js'
import type { HandoverPage } from './decision/handover-page.js'
import type { StartPage } from './case/start-page.js'
import type { StepPage } from './case/step-page.js'
import type { MistakePage, StopPage } from './case/stop-page.js'
import type { PracticeBenchPage } from './practice/bench-page.js'
import type { ClassListPage } from './practice/class-list-page.js'
import type { ClassPage } from './practice/class-page.js'
import type { DoorPage } from './practice/door-page.js'
import type { ByEarPage } from './practice/by-ear-page.js'
import type { HearsayPage } from './practice/hearsay-page.js'
import type { ConfusionLessonPage } from './practice/confusion-lesson-page.js'
import type { LessonsPage } from './practice/lessons-page.js'
import type { PartLessonPage } from './practice/part-lesson-page.js'
import type { HeldPage } from './practice/held-page.js'
import type { HowPage } from './practice/how-page.js'
import type { JoinPage } from './practice/join-page.js'
import type { LessonRoomPage } from './practice/lesson-room-page.js'
import type { WallPage } from './practice/wall-page.js'
import type { LearnerPage } from './practice/learner-page.js'
import type { PracticeMovesPage } from './practice/moves-page.js'
import type { PracticePointsPage } from './practice/points-page.js'
import type { RecordPage } from './practice/record-page.js'
import type { SetPage } from './practice/set-page.js'
import type { SkillsPage } from './practice/skills-page.js'
import type { DisinfectionPage } from './care/disinfection-page.js'
import type { HabitsPage } from './care/habits-page.js'
import type { LeftPage } from './care/left-page.js'
import type { LogPage } from './care/log-page.js'
import type { RoundPage } from './care/round-page.js'
import type { SheetPage } from './care/sheet-page.js'
import type { LearnedPage } from './learning/learned-page.js'
import type { PartPage } from './parts/part-page.js'
import type { ShelfPage, ShoppingPage } from './parts/shelf-page.js'
import type { ImportPage } from './tools/import-page.js'
import type { LabelsPage } from './tools/labels-page.js'
import type { ToolEditPage } from './tools/tool-edit-page.js'
import type { ToolNewPage } from './tools/tool-new-page.js'
import type { ToolRecordPage } from './tools/tool-record-page.js'
import type { ToolsPage } from './tools/tools-page.js'
import type { WhyPage } from './case/why-page.js'
import type { LabPage } from './lab/lab-page.js'
import type { WorthPage } from './decision/worth-page.js'
import type { Noticed } from './rulebook/notice.js'
import type { CardPage } from './practice/card-page.js'
import type { CardsPage } from './practice/cards-page.js'
import type { DebriefPage, DebriefWaitPage } from './practice/debrief-page.js'
import type { EntryPage, ListPage } from './rulebook/rulebook-page.js'

/** Every view with the model that it needs. */
export interface Pages {
  'care/disinfection': DisinfectionPage
  'care/habits': HabitsPage
  'care/left': LeftPage
  'care/log': LogPage
  'care/round': RoundPage
  'care/sheet': SheetPage
  'case/answers': AnswersPage
  'case/cases': CasesPage
  'case/change': ChangePage
  'case/clear': ClearPage
  'case/complaint': ComplaintPage
  'case/conflict': ConflictPage
  'case/cured': CuredPage
  'case/danger': DangerPage
  'case/ending': EndingPage
  'case/finish': FinishPage
  'case/finished': FinishedPage
  'case/fix': FixPage
  'identify/identify': IdentifyPage
  'lab/lab': Noticed<LabPage>
  'case/mistake': MistakePage
  'case/new': NewPage
  'case/now': NowPage
  'practice/card': CardPage
  'practice/cards': CardsPage
  'practice/debrief': DebriefPage
  'practice/debrief-wait': DebriefWaitPage
  'layout/problem': ProblemPage
  'practice/bench': PracticeBenchPage
  'practice/class': ClassPage
  'practice/classes': ClassListPage
  'practice/door': DoorPage
  'practice/held': HeldPage
  'practice/how': HowPage
  'practice/join': JoinPage
  'practice/lesson-room': LessonRoomPage
  'practice/wall': WallPage
  'practice/by-ear': ByEarPage
  'practice/hearsay': HearsayPage
  'practice/learner': LearnerPage
  'practice/lesson-confusion': ConfusionLessonPage
  'practice/lesson-part': PartLessonPage
  'practice/lessons': LessonsPage
  'practice/moves': PracticeMovesPage
  'practice/points': PracticePointsPage
  'practice/record': RecordPage
  'practice/set': SetPage
  'practice/skills': SkillsPage
  'rulebook/proof': Noticed<ProofPage>
  'rulebook/entry': Noticed<EntryPage>
  'rulebook/list': Noticed<ListPage>
  'decision/retire': RetirePage
  'decision/return': ReturnPage
  'people/door': DoorFormPage
  'people/other-shop': OtherShopPage
  'people/people': PeoplePage
  'shop/backup': BackupPage
  'shop/shop': ShopPage
  'decision/handover': HandoverPage
  'case/start': StartPage
  'case/step': StepPage
  'case/stop': StopPage
  'case/tool': ToolPage
  'case/why': WhyPage
  'learning/learned': LearnedPage
  'parts/part': PartPage
  'parts/shelf': ShelfPage
  'parts/shopping': ShoppingPage
  'tools/edit': ToolEditPage
  'tools/import': ImportPage
  'tools/labels': LabelsPage
  'tools/new': ToolNewPage
  'tools/tool': ToolRecordPage
  'tools/tools': ToolsPage
  'decision/worth': WorthPage
}

/** The names, for the test that compares them with the files in `views/pages/`. */
export const pageNames = [
  'care/disinfection',
  'care/habits',
  'care/left',
  'care/log',
  'care/round',
  'care/sheet',
  'case/answers',
  'case/cases',
  'case/change',
  'case/complaint',
  'case/conflict',
  'case/cured',
  'case/danger',
  'case/ending',
  'case/finish',
  'case/finished',
  'case/fix',
  'identify/identify',
  'lab/lab',
  'case/clear',
  'case/mistake',
  'case/new',
  'case/now',
  'practice/card',
  'practice/cards',
  'practice/debrief',
  'practice/debrief-wait',
  'layout/problem',
  'practice/bench',
  'practice/class',
  'practice/classes',
  'practice/door',
  'practice/held',
  'practice/how',
  'practice/join',
  'practice/lesson-room',
  'practice/wall',
  'practice/by-ear',
  'practice/hearsay',
  'practice/learner',
  'practice/lesson-confusion',
  'practice/lesson-part',
  'practice/lessons',
  'practice/moves',
  'practice/points',
  'practice/record',
  'practice/set',
  'practice/skills',
  'rulebook/proof',
  'rulebook/entry',
  'rulebook/list',
  'decision/retire',
  'decision/return',
  'people/door',
  'people/other-shop',
  'people/people',
  'shop/backup',
  'shop/shop',
  'decision/handover',
  'case/start',
  'case/step',
  'case/stop',
  'case/tool',
  'case/why',
  'learning/learned',
  'parts/part',
  'parts/shelf',
  'parts/shopping',
  'tools/edit',
  'tools/import',
  'tools/labels',
  'tools/new',
  'tools/tool',
  'tools/tools',
  'decision/worth',
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
