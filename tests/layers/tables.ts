/** The map of the house: who may import whom. Held by layers.test.ts. */

/** What each layer may import besides itself. A layer is a folder or a file; the longest match counts. */
export const mayImport: Readonly<Record<string, readonly string[]>> = {
  'shared/': [],
  'server/errors.ts': [],
  'server/diagnosis/': ['shared/'],
  'server/simulation/': ['shared/', 'server/diagnosis/'],
  'server/proof/': ['shared/', 'server/diagnosis/', 'server/simulation/'],
  'server/identify/': ['shared/'],
  'server/interchange/': ['shared/', 'server/diagnosis/'],
  'server/knowledge/': ['shared/', 'server/errors.ts'],
  'server/cases/': ['shared/', 'server/errors.ts'],
  'server/assessments.ts': ['shared/'],
  'server/live-rulebook.ts': ['shared/', 'server/assessments.ts', 'server/diagnosis/', 'server/errors.ts'],
  'server/deps.ts': ['shared/', 'server/cases/', 'server/live-rulebook.ts'],
  'server/watch-rules.ts': ['shared/', 'server/errors.ts', 'server/knowledge/', 'server/live-rulebook.ts'],
  'server/lab/': ['shared/', 'server/diagnosis/', 'server/errors.ts', 'server/knowledge/'],
  'server/pages/': ['shared/', 'server/errors.ts', 'server/cases/', 'server/lab/', 'server/identify/'],
  'server/middleware/': ['server/errors.ts'],
  'server/api/': [
    'shared/',
    'server/cases/',
    'server/deps.ts',
    'server/diagnosis/',
    'server/errors.ts',
    'server/middleware/',
  ],
  'server/routes/': [
    'shared/',
    'server/api/',
    'server/cases/',
    'server/deps.ts',
    'server/diagnosis/',
    'server/errors.ts',
    'server/interchange/',
    'server/lab/',
    'server/middleware/',
    'server/pages/',
    'server/proof/',
  ],
  'server/error-page.ts': ['server/errors.ts', 'server/pages/'],
  'server/app.ts': [
    'server/deps.ts',
    'server/error-page.ts',
    'server/middleware/',
    'server/pages/',
    'server/routes/',
  ],
  'server/config.ts': ['shared/', 'server/errors.ts'],
  'server/serve.ts': [
    'shared/',
    'server/app.ts',
    'server/cases/',
    'server/config.ts',
    'server/errors.ts',
    'server/knowledge/',
    'server/live-rulebook.ts',
    'server/watch-rules.ts',
  ],
  'server/start.ts': ['server/config.ts', 'server/serve.ts'],
  'server/demo-cases.ts': ['shared/', 'server/cases/'],
  'server/demo.ts': ['server/config.ts', 'server/demo-cases.ts', 'server/serve.ts'],
  'tests/': ['shared/', 'server/'],
}

/** Who may import a package. `node:` stands for everything that Node brings along. */
export const mayUse: Readonly<Record<string, readonly string[]>> = {
  'better-sqlite3': ['server/cases/'],
  chokidar: ['server/watch-rules.ts'],
  ejs: ['server/pages/render.ts'],
  express: [
    'server/api/',
    'server/app.ts',
    'server/error-page.ts',
    'server/middleware/',
    'server/pages/render.ts',
    'server/routes/',
  ],
  helmet: ['server/middleware/'],
  'json-rules-engine': ['server/diagnosis/fired-rules.ts'],
  kysely: ['server/cases/'],
  'lru-cache': ['server/assessments.ts', 'server/cases/'],
  minisearch: ['server/pages/complaint-search.ts'],
  'node:': [
    'server/app.ts',
    'server/cases/',
    'server/config.ts',
    'server/demo-cases.ts',
    'server/demo.ts',
    'server/interchange/digest.ts',
    'server/knowledge/',
    'server/live-rulebook.ts',
    'server/pages/drawing-files.ts',
    'server/pages/render.ts',
    'server/proof/figures-file.ts',
    'server/proof/kind-digest.ts',
    'server/routes/lab-routes.ts',
    'server/serve.ts',
    'server/start.ts',
    'server/watch-rules.ts',
  ],
  prettier: ['server/knowledge/fix-rules.ts'],
  zod: [
    'shared/',
    'server/api/',
    'server/config.ts',
    'server/demo-cases.ts',
    'server/knowledge/',
    'server/routes/',
  ],
}

/**
 * The arrows inside the core, in order: answers → facts → rules → findings → posterior → next step. A file imports
 * from its own line or from one above it.
 */
export const coreStages: readonly (readonly string[])[] = [
  ['noisy-or.ts', 'prior.ts', 'facts.ts', 'fired-rules.ts'],
  ['model.ts'],
  ['findings.ts', 'policy.ts'],
  ['fault-sets.ts', 'tripping.ts', 'posterior.ts', 'weights.ts'],
  ['plan/problem.ts', 'prepare.ts'],
  ['plan/build.ts', 'plan/outcomes.ts', 'plan/fix-order.ts', 'plan/state-value.ts'],
  ['plan/look-ahead.ts', 'plan/endgame.ts'],
  ['plan.ts'],
  ['assess.ts'],
]

/** Upward imports that are known and to be mended. One that is no longer needed fails, so the list only shrinks. */
export const exceptions: readonly string[] = [
  'server/middleware/body-type.ts imports server/api/problems.ts, which is above it',
]
