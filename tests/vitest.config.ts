import { defineConfig } from 'vitest/config'

export const config = defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // Files of one worker share what they import: loading it anew for each took more time than the tests. So no test
    // file may leave anything behind in a module, in process or on console.
    isolate: false,
    reporters: ['default'],
  },
})
export default config
