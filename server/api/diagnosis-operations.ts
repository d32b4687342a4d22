import { z } from 'zod'
import { AssessmentView, AssessRequest, RulebookView } from '../../shared/api.js'
import type { ShopSettings } from '../../shared/situation.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { kindProblems, situationProblems } from '../cases/acceptable.js'
import { settingsOf } from '../bench/reckoning.js'
import { assessmentView } from './assessment-view.js'
import type { Operation } from './operation.js'
import { operation, refuse } from './operation.js'
import { rulebookView } from './rulebook-view.js'

/** The rulebook, and the diagnosis of a situation that is stored nowhere. */
export const diagnosisOperations: readonly Operation[] = [
  operation({
    name: 'getRulebook',
    method: 'get',
    path: '/rulebook',
    summary: 'What the scoring and the planning of one kind use',
    input: z.object({ kind: z.string('say which, as ?kind= and the id of one').max(60) }),
    output: RulebookView,
    status: 200,
    problems: ['not-acceptable'],
    run({ knowledge, prepared }, { kind }) {
      refuse(kindProblems(knowledge, kind), true)
      return { body: rulebookView(knowledge, prepared, kind) }
    },
  }),
  operation({
    name: 'assess',
    method: 'post',
    path: '/assess',
    summary: 'The diagnosis of one situation; nothing is stored',
    input: AssessRequest,
    output: AssessmentView,
    status: 200,
    problems: ['not-acceptable'],
    async run({ knowledge, assessments, shop: ours }, { shop: given, ...situation }) {
      refuse(situationProblems(knowledge, situation))
      const settings = { ...settingsOf(situation, knowledge, ours.record), ...given } as ShopSettings
      return {
        body: assessmentView(bookOf(knowledge, situation.kind), await assessments.of(situation, settings)),
      }
    },
  }),
]
