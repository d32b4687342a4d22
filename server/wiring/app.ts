import express from 'express'
import type { Express, RequestHandler } from 'express'
import type { Deps } from './deps.js'
import { errorPage, notFound } from './error-page.js'
import { servePublicParts } from './public-parts.js'
import { formOnly } from '../middleware/body-type.js'
import { door } from '../middleware/door.js'
import { fairTurns } from '../middleware/fair-turns.js'
import { hostNames } from '../middleware/host-names.js'
import { ownPractice } from '../middleware/own-practice.js'
import { sameOrigin } from '../middleware/same-origin.js'
import { apiRoutes } from '../api/api-routes.js'
import { careRoutes } from '../routes/care/care-routes.js'
import { leftRoutes } from '../routes/care/left-routes.js'
import { disinfectionRoutes } from '../routes/care/disinfection-routes.js'
import { partRoutes } from '../routes/parts/part-routes.js'
import { learningRoutes } from '../routes/learning/learning-routes.js'
import { caseRoutes } from '../routes/case/case-routes.js'
import { labRoutes } from '../routes/lab/lab-routes.js'
import { identifyRoutes } from '../routes/identify/identify-routes.js'
import { paperRoutes } from '../routes/decision/paper-routes.js'
import { practiceCardRoutes } from '../routes/practice/card-routes.js'
import { practiceClassRoutes } from '../routes/practice/class-routes.js'
import { practiceDebriefRoutes } from '../routes/practice/debrief-routes.js'
import { practiceExerciseRoutes } from '../routes/practice/exercise-routes.js'
import { practiceHearsayRoutes } from '../routes/practice/hearsay-routes.js'
import { practiceByEarRoutes } from '../routes/practice/by-ear-routes.js'
import { practiceJoinRoutes } from '../routes/practice/join-routes.js'
import { practiceLessonRoomRoutes } from '../routes/practice/lesson-room-routes.js'
import { practiceLessonRoutes } from '../routes/practice/lesson-routes.js'
import { practicePeopleRoutes } from '../routes/practice/people-routes.js'
import { practiceSetRoutes } from '../routes/practice/set-routes.js'
import { practiceSkillsRoutes } from '../routes/practice/skills-routes.js'
import { proofRoutes } from '../routes/rulebook/proof-routes.js'
import { rulebookRoutes } from '../routes/rulebook/rulebook-routes.js'
import { peopleRoutes } from '../routes/people/people-routes.js'
import { backupRoutes } from '../routes/shop/backup-routes.js'
import { shopRoutes } from '../routes/shop/shop-routes.js'
import { importFileRoutes, importRoutes } from '../routes/tools/import-routes.js'
import { photoRoutes } from '../routes/tools/photo-routes.js'
import { toolRoutes } from '../routes/tools/tool-routes.js'
import { worthRoutes } from '../routes/decision/worth-routes.js'

/** The whole application, in the order in which a request meets it. */
export function createApp(deps: Deps): Express {
  const app = express()
  if (deps.trustProxy !== undefined) app.set('trust proxy', deps.trustProxy)
  servePublicParts(app, deps.production)
  const ours = hostNames(deps.names ?? [])
  const inTurn = fairTurns()
  const doors: RequestHandler[] = [
    ours,
    inTurn,
    ...(deps.people ? [door(deps.people, deps.now, deps.as ?? ((_, work) => work()), deps.shopId)] : []),
    // what another program has changed counts from the next request on
    async (_req, _res, next) => {
      await Promise.all([deps.shop.fresh(), deps.habits.fresh()])
      next()
    },
  ]
  // Before the parsers of the pages, because it has its own and answers its own errors.
  const own = deps.people ? [ownPractice({ ...deps, people: deps.people })] : []
  app.use('/api', apiRoutes(deps, [...doors, ...own]))
  app.use(...doors, sameOrigin())
  app.use(importFileRoutes(deps))
  app.use(photoRoutes(deps))
  app.use(formOnly())
  app.use(express.urlencoded({ extended: false, limit: '64kb', parameterLimit: 400 }))
  app.use((req, _res, next) => {
    req.body ??= {}
    next()
  })
  for (const handler of own) app.use(handler)
  app.use(caseRoutes(deps))
  app.use(worthRoutes(deps))
  app.use(paperRoutes(deps))
  app.use(identifyRoutes(deps))
  app.use(rulebookRoutes(deps))
  app.use(proofRoutes(deps))
  app.use(labRoutes(deps))
  app.use(shopRoutes(deps))
  app.use(backupRoutes(deps))
  app.use(peopleRoutes(deps))
  app.use(importRoutes(deps))
  app.use(toolRoutes(deps))
  app.use(careRoutes(deps))
  app.use(leftRoutes(deps))
  app.use(disinfectionRoutes(deps))
  app.use(partRoutes(deps))
  app.use(learningRoutes(deps))
  app.use(practiceCardRoutes(deps))
  app.use(practiceDebriefRoutes(deps))
  app.use(practiceHearsayRoutes(deps))
  app.use(practiceByEarRoutes(deps))
  app.use(practiceLessonRoutes(deps))
  app.use(practicePeopleRoutes(deps))
  app.use(practiceExerciseRoutes(deps))
  app.use(practiceJoinRoutes(deps))
  app.use(practiceLessonRoomRoutes(deps))
  app.use(practiceClassRoutes(deps))
  app.use(practiceSetRoutes(deps))
  app.use(practiceSkillsRoutes(deps))
  app.use(notFound())
  app.use(errorPage())
  return app
}
