import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // Two cores: more workers only wait for each other, and browsers and processes of the tests need room as well.
    maxWorkers: 2,
    testTimeout: 30_000,
    hookTimeout: 60_000,
    // A forgotten `only` must not make a run pass.
    allowOnly: false,
  },
})
