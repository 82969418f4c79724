import { stat } from 'node:fs/promises'
import { dirname } from 'node:path'
import { systemClock } from '#src/app.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { readConfig } from '#src/config.ts'
import { RestlessStoreError } from '#src/ports/copy-place.ts'
import { cipherFor } from '#src/stores/cipher.ts'
import { formatAfter } from '#src/stores/migrations.ts'
import { InputError } from '../input-error.ts'
import type { Surface } from '../surface.ts'
import { readClinicFiles } from './clinic-files.ts'
import { createCountLine } from './count-line.ts'
import { presentPlace } from './places.ts'
import { describeStanding, writeBackup, type WrittenBackup } from './write-backup.ts'

export interface BackupOptions {
  readonly to: string
  readonly replace?: true
  readonly json?: true
}

/** Beside a running start. Gives back the exit status: 1 where the store was never still. */
export async function backup({ to, replace, json }: BackupOptions, { environment, print, complain, terminal }: Surface): Promise<number> {
  const config = readConfig(environment)
  await requireRoom(to, replace === true)
  const line = createCountLine(terminal)
  try {
    const written = await writeBackup({
      path: to,
      replaces: replace === true,
      copies: presentPlace(config, dirname(to)).copyOut(),
      files: await readClinicFiles(config.dataDir),
      cipher: cipherFor(config.dataKey),
      documentFormat: formatAfter(documentMigrations),
      at: systemClock.now(),
      onDocument: () => line.count('documents backed up'),
    })
    line.end()
    print(json ? JSON.stringify(describeAsData(to, written)) : describeBackup(to, written))
    return 0
  } catch (error) {
    line.end()
    if (!(error instanceof RestlessStoreError)) throw error
    complain(error.message)
    return 1
  }
}

async function requireRoom(path: string, replaces: boolean): Promise<void> {
  const isFolder = await stat(dirname(path)).then((found) => found.isDirectory(), () => false)
  if (!isFolder) throw new InputError(`${dirname(path)} is no folder. Make it first, or name another.`)
  const found = await stat(path).catch(() => null)
  if (found?.isDirectory() === true) throw new InputError(`${path} is a folder. Name a file in it.`)
  if (found !== null && !replaces) throw describeStanding(path)
}

function describeAsData(file: string, { writtenAt, documents, entries, files, keyId, sha256 }: WrittenBackup): object {
  return { file, writtenAt, documents, entries, files, keyId, sha256 }
}

function describeBackup(file: string, { writtenAt, documents, entries, keyId }: WrittenBackup): string {
  const sealing = keyId === null ? 'It is not encrypted: keep it as safe as the records themselves.' : `It is encrypted with key ${keyId}: keep that key elsewhere.`
  return `${file} holds ${documents} documents with ${entries} entries, as of ${writtenAt}. ${sealing}`
}
