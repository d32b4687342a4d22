import { defineConfig } from 'vitest/config'

export const config = defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    reporters: ['default'],
  },
})
// eslint-disable-next-line no-restricted-exports -- vitest insists on a default export
export default config
