import { defineConfig } from 'vitest/config'

/** The tests of the rules and the schedule alone: quick enough to run once for every mutant. */
export default defineConfig({
  test: { include: ['tests/rules/**/*.test.ts', 'tests/schedule/**/*.test.ts'], exclude: ['tests/schedule/machine-zone.test.ts'] },
})
