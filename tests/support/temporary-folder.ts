import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'

/** An empty folder of its own, gone when the test has ended. */
export async function makeTemporaryFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'nuchal-'))
  onTestFinished(() => rm(folder, { recursive: true, force: true }))
  return folder
}
