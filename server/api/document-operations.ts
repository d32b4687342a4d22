import { z } from 'zod'
import { ProblemKind } from '../../shared/api.js'
import type { Operation } from './operation.js'
import { operation } from './operation.js'
import { ApiProblem, problemKinds } from './problems.js'

/** What the `type` of a problem points to. */
export const documentOperations: readonly Operation[] = [
  operation({
    name: 'getProblemKind',
    method: 'get',
    path: '/problems/{kind}',
    summary: 'What a kind of problem means',
    input: z.object({}),
    output: ProblemKind,
    status: 200,
    problems: ['not-found'],
    run(_deps, _input, { kind = '' }) {
      const found = Object.entries(problemKinds).find(([slug]) => slug === kind)
      if (!found) throw new ApiProblem('not-found', 'There is no such kind of problem.')
      return { body: { type: `/api/problems/${found[0]}`, ...found[1] } }
    },
  }),
]
