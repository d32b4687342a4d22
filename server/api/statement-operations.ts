import { z } from 'zod'
import { StatementsView } from '../../shared/api.js'
import { kindProblems } from '../cases/acceptable.js'
import { statementsMeant } from '../statements/statements.js'
import type { Operation } from './operation.js'
import { operation, refuse } from './operation.js'

/** What somebody says in their own words, as statements to confirm. */
export const statementOperations: readonly Operation[] = [
  operation({
    name: 'getStatements',
    method: 'get',
    path: '/statements',
    summary: 'The statements that are meant by free words, best first',
    input: z.object({
      kind: z.string('say which, as ?kind= and the id of one').max(60),
      words: z
        .string('say what it does, as &words= and the words of the person')
        .trim()
        .min(1, 'is empty; say what it does, in the words of the person')
        .max(600, 'is too long; 600 characters tell the complaint'),
    }),
    output: StatementsView,
    status: 200,
    problems: ['not-acceptable'],
    run({ knowledge }, { kind, words }) {
      refuse(kindProblems(knowledge, kind), true)
      return { body: { statements: [...statementsMeant(knowledge, kind, words)] } }
    },
  }),
]
