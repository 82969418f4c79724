import { defineConfig } from 'vitest/config'

/** These look at nothing but their arguments and the content. */
const pure = ['rules', 'schedule', 'evidence', 'conversation', 'content', 'chart', 'flows', 'journeys', 'properties', 'reports']
/** These touch files, databases and processes, each of its own, and leave nothing behind in the modules they import. */
const tidy = ['commands', 'stores', 'delivery', 'docs']
/** These answer for a network, and take down after each test what they put up. */
const networks = ['channels', 'product']
const sharing = [...pure, ...tidy, ...networks]

export default defineConfig({
  test: {
    // Two cores: more workers only wait for each other, and browsers and processes of the tests need room as well.
    maxWorkers: 2,
    testTimeout: 30_000,
    hookTimeout: 60_000,
    // A forgotten `only` must not make a run pass.
    allowOnly: false,
    globalSetup: ['tests/support/global-setup.ts'],
    projects: [
      // Files that share what they import read the content once for many of them, which halves the whole run.
      { extends: true, test: { name: 'pure', include: pure.map((room) => `tests/${room}/**/*.test.ts`), isolate: false } },
      { extends: true, test: { name: 'tidy', include: tidy.map((room) => `tests/${room}/**/*.test.ts`), isolate: false } },
      { extends: true, test: { name: 'networks', include: networks.map((room) => `tests/${room}/**/*.test.ts`), isolate: false } },
      { extends: true, test: { name: 'shell', include: ['tests/**/*.test.ts'], exclude: [...sharing.map((room) => `tests/${room}/**`), 'tests/.artifacts/**'] } },
    ],
  },
})
