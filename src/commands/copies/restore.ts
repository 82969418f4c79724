import { documentMigrations } from '#src/chart/document-migrations.ts'
import { readConfig } from '#src/config.ts'
import { cipherFor } from '#src/stores/cipher.ts'
import { createProgress, type Progress } from '../rehearse/progress.ts'
import type { Surface } from '../surface.ts'
import type { BackupHeader, ClinicFile } from './backup-format.ts'
import { placeClinicFiles } from './clinic-files.ts'
import { compareCopies, type Compared } from './compare-copies.ts'
import { presentPlace } from './places.ts'
import { readBackup, readBackupDocuments, readBackupHeader, type BackupSource } from './read-backup.ts'

export interface RestoreOptions {
  readonly from: string
  readonly check?: true
  readonly json?: true
}

/** Reads the backup to its end before anything is put anywhere, and afterwards compares what lies in the store with it. */
export async function restore({ from, check, json }: RestoreOptions, { environment, print, terminal }: Surface): Promise<void> {
  const config = readConfig(environment)
  const source: BackupSource = { path: from, cipher: cipherFor(config.dataKey), steps: documentMigrations }
  const header = await readBackupHeader(source)
  const files = await withProgress(header, terminal, (progress) => readWhole(source, progress))
  if (check === true) return print(json ? asJson(header, { isPutIn: false }) : `${from} is whole: ${describeHolding(header)}. Nothing was put anywhere.`)
  const { compared, kept } = await presentPlace(config).fill(async (target) => {
    await withProgress(header, terminal, async (progress) => {
      for await (const copy of readBackupDocuments(source)) {
        await target.copyIn(copy)
        progress.advance()
      }
    })
    const compared = await withProgress(header, terminal, (progress) => compareCopies(readBackupDocuments(source), target.copyOut(), progress.advance))
    return { compared, kept: await placeClinicFiles(config.dataDir, files) }
  })
  print(json ? asJson(header, { isPutIn: true, ...compared, kept }) : describeRestored(header, compared, kept))
}

async function withProgress<T>(header: BackupHeader, terminal: Surface['terminal'], work: (progress: Progress) => Promise<T>): Promise<T> {
  const progress = createProgress(header.documents, terminal)
  try {
    return await work(progress)
  } finally {
    progress.end()
  }
}

async function readWhole(source: BackupSource, progress: Progress): Promise<readonly ClinicFile[]> {
  const files: ClinicFile[] = []
  for await (const content of readBackup(source)) {
    if (content.kind === 'file') files.push(content.file)
    if (content.kind === 'document') progress.advance()
  }
  return files
}

function asJson({ writtenAt, documents, keyId }: BackupHeader, more: object): string {
  return JSON.stringify({ writtenAt, documents, keyId, ...more })
}

function describeHolding({ documents, writtenAt }: BackupHeader): string {
  return `${documents} documents as of ${writtenAt}`
}

function describeRestored(header: BackupHeader, { entries }: Compared, kept: readonly string[]): string {
  return [
    `${describeHolding(header)}, with ${entries} entries, are in the store and were compared with the backup.`,
    'What happened after that instant is not in it, and the chats may show more than the records: red flags, doses that were lowered, alerts that were answered.',
    'Before clients train again have every therapist look through their chat since then, speak with whoever told of a sign, and set lower by hand what had been lowered.',
    ...kept.map((name) => `${name} stood there already and was left as it is.`),
  ].join('\n')
}
