// Where the documents stand that released versions have stored: one folder a version, one a case.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Instant } from '#src/domain/identifier.ts'
import type { Told } from './live-on.ts'

export const storedFolder = 'tests/fixtures/stored'

export interface StoredFixture {
  /** `version/case`. */
  readonly name: string
  readonly version: string
  readonly folder: string
  /** When it was stored. */
  readonly at: Instant
  /** The data of the open question's buttons. */
  readonly buttons: readonly string[]
  /** What the version that stored it would have asked for next, with nothing but good answers; null where it is no chart. */
  readonly next: readonly Told[] | null
}

function foldersIn(path: string): readonly string[] {
  return readdirSync(path, { withFileTypes: true }).flatMap((entry) => (entry.isDirectory() ? [entry.name] : [])).toSorted()
}

export function storedVersions(): readonly string[] {
  return foldersIn(storedFolder)
}

export function storedFixtures(): readonly StoredFixture[] {
  return storedVersions().flatMap((version) =>
    foldersIn(join(storedFolder, version)).map((name) => {
      const folder = join(storedFolder, version, name)
      const { at, buttons, next } = JSON.parse(readFileSync(join(folder, 'case.json'), 'utf8')) as Pick<StoredFixture, 'at' | 'buttons' | 'next'>
      return { name: `${version}/${name}`, version, folder, at, buttons, next }
    }),
  )
}
