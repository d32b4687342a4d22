import { availableParallelism } from 'node:os'
import { defineConfig } from 'vitest/config'
import { giveUp } from './give-up.js'

export const config = defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // No test is about time: a limit is there only so that a run which hangs comes to an end.
    testTimeout: giveUp,
    hookTimeout: giveUp,
    teardownTimeout: giveUp,
    slowTestThreshold: giveUp,
    // By itself it would leave one core to a watching editor, which is one of two here.
    maxWorkers: availableParallelism(),
    // Node loads the sources itself, as the server does: rewritten for mocks, every call from file to file costs more.
    experimental: { viteModuleRunner: false, nodeLoader: false },
    // What a test leaves for the collector is mostly short-lived; with the usual 16 MB a tenth of the time goes to copying it.
    // And the workers take all cores: helping threads of their own only get in each other's way.
    // Most code runs but a few times: it is optimised later than by itself, which saves more than it costs.
    execArgv: [
      '--import',
      './tests/typescript.mjs',
      '--max-semi-space-size=64',
      '--single-threaded',
      '--interrupt-budget=400000',
    ],
    // Files of one worker share what they import: loading it anew for each took more time than the tests. So no test
    // file may leave anything behind in a module, in process or on console.
    isolate: false,
    reporters: ['default'],
  },
})
export default config
