// `npm run nightly`: the properties over whole sequences, with many more of them than `npm test` plays and from a fresh seed,
// which every title and failure prints. Takes the number of sequences (10,000 unless told); NIGHTLY_SEED plays a seed again.
// How many a property plays is set in tests/properties/runs.ts.
import { spawn } from 'node:child_process'
import { resolve } from 'node:path'

const usualRuns = 10_000
const [asked = String(usualRuns)] = process.argv.slice(2)

if (/^[1-9]\d{0,6}$/.test(asked)) {
  // One seed for every file.
  const environment = { ...process.env, NIGHTLY_RUNS: asked, NIGHTLY_SEED: process.env.NIGHTLY_SEED ?? String(Date.now() % 2 ** 31) }
  // By the whole path: other tools keep copies of the tests elsewhere under `tests/`.
  const tests = spawn(process.execPath, ['node_modules/vitest/vitest.mjs', 'run', resolve('tests/properties')], { stdio: 'inherit', env: environment })
  tests.on('exit', (status) => {
    process.exitCode = status ?? 1
  })
} else {
  console.error(`nightly: the number of sequences has to be a whole number from 1 on, not "${asked}".`)
  process.exitCode = 2
}
