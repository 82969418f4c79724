import { defineConfig } from 'vitest/config'

/**
 * The tests of the rules and the schedule alone, quick enough to run for every mutant. Modules are shared between files:
 * nothing in these rooms keeps a state that a test could leave behind, and reading the content once saves most of the time.
 */
export default defineConfig({
  test: {
    include: ['tests/rules/**/*.test.ts', 'tests/schedule/**/*.test.ts'],
    exclude: ['tests/schedule/machine-zone.test.ts'],
    isolate: false,
    testTimeout: 60_000,
  },
})
