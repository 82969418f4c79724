import { defineConfig } from 'vitest/config'

/** These look at nothing but their arguments and the content, so that their files may share the modules they import. */
const pure = ['rules', 'schedule', 'evidence', 'conversation', 'content', 'chart', 'flows', 'journeys', 'properties', 'reports']

export default defineConfig({
  test: {
    // Two cores: more workers only wait for each other, and browsers and processes of the tests need room as well.
    maxWorkers: 2,
    testTimeout: 30_000,
    hookTimeout: 60_000,
    // A forgotten `only` must not make a run pass.
    allowOnly: false,
    projects: [
      // Reading the content once for many files, and not once for each, halves the whole run.
      { extends: true, test: { name: 'pure', include: pure.map((room) => `tests/${room}/**/*.test.ts`), isolate: false } },
      { extends: true, test: { name: 'shell', include: ['tests/**/*.test.ts'], exclude: [...pure.map((room) => `tests/${room}/**`), 'tests/.artifacts/**'] } },
    ],
  },
})
