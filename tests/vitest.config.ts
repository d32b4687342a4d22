import { defineConfig } from 'vitest/config'

export const config = defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    reporters: ['default'],
  },
})
export default config
