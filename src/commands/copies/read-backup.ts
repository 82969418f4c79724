import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { createGunzip } from 'node:zlib'
import type { DocumentCopy } from '#src/ports/archive.ts'
import type { Migration } from '#src/ports/migration.ts'
import { StoreError } from '#src/ports/store.ts'
import { keyedError, type Cipher } from '#src/stores/cipher.ts'
import { decodeCopy } from '#src/stores/document-copy.ts'
import { formatAfter } from '#src/stores/migrations.ts'
import { describeUnreadable } from '../read-input-file.ts'
import { backupFormat, describeDamagedBackup, headerShape, headerText, lineShape, unsealLine, type BackupEnd, type BackupHeader, type ClinicFile } from './backup-format.ts'
import { splitLines } from './split-lines.ts'

export interface BackupSource {
  readonly path: string
  readonly cipher: Cipher
  readonly steps: readonly Migration[]
}

export type BackupContent =
  | { readonly kind: 'file'; readonly file: ClinicFile }
  | { readonly kind: 'document'; readonly copy: DocumentCopy }
  /** The last; with it, everything before it is known to be whole. */
  | { readonly kind: 'end'; readonly end: BackupEnd }

/** What a backup says of itself. Rejects `damaged`, `newer` or `keyed`; nothing but the first line is read. */
export async function readBackupHeader({ path, cipher, steps }: BackupSource): Promise<BackupHeader> {
  for await (const line of readLines(path)) return decodeHeader(line, { path, cipher, steps })
  throw describeDamagedBackup(path, 'it is empty')
}

/**
 * What a backup holds, document by document in the newest format, with what is wrong told as soon as it is met: a caller
 * that has come to the end knows that nothing was lost, added, moved or changed.
 */
export async function* readBackup(source: BackupSource): AsyncGenerator<BackupContent> {
  const { path, cipher, steps } = source
  const hash = createHash('sha256')
  const counts = { documents: 0, files: 0, entries: 0 }
  let header: BackupHeader | null = null
  let lastId = ''
  let number = 0
  let isOver = false
  for await (const line of readLines(path)) {
    if (isOver) throw describeDamagedBackup(path, 'it goes on behind its end')
    if (header === null) {
      header = decodeHeader(line, source)
      continue
    }
    number += 1
    const text = openLine(path, cipher, header, number, line)
    const content = decodeLine(path, text, steps)
    if (content.kind === 'end') {
      const sha256 = hash.update(`${headerText(header)}\n`).digest('hex')
      const isWhole = Object.entries({ ...counts, sha256 }).every(([key, value]) => content.end[key as keyof BackupEnd] === value)
      if (!isWhole || counts.documents !== header.documents) throw describeDamagedBackup(path, 'its end does not fit what stands before it')
      isOver = true
    } else {
      hash.update(`${text}\n`)
    }
    if (content.kind === 'file') counts.files += 1
    if (content.kind === 'document') {
      const { id } = content.copy.document
      if (id <= lastId) throw describeDamagedBackup(path, 'its documents are not in order')
      lastId = id
      counts.documents += 1
      counts.entries += content.copy.entries.length
    }
    yield content
  }
  if (!isOver) throw describeDamagedBackup(path, 'it is cut: its end is missing')
}

/** The documents alone; rejects as {@link readBackup} does. */
export async function* readBackupDocuments(source: BackupSource): AsyncGenerator<DocumentCopy> {
  for await (const content of readBackup(source)) if (content.kind === 'document') yield content.copy
}

async function* readLines(path: string): AsyncGenerator<string> {
  const input = createReadStream(path)
  const unzipped = createGunzip()
  // An error of either side ends the reading; `pipe` alone would pass over that of the file.
  input.on('error', (error) => unzipped.destroy(error))
  try {
    yield* splitLines(input.pipe(unzipped))
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    if (code === 'Z_BUF_ERROR') throw describeDamagedBackup(path, 'it is cut')
    if (code?.startsWith('Z_') === true || error instanceof RangeError) throw describeDamagedBackup(path, 'it is altered, or no backup at all')
    if (code !== undefined && !(error instanceof StoreError)) throw describeUnreadable(path, error)
    throw error
  } finally {
    input.destroy()
    unzipped.destroy()
  }
}

function decodeHeader(line: string, { path, cipher, steps }: BackupSource): BackupHeader {
  const value = parseOrNull(line) as { readonly kind?: unknown; readonly format?: unknown } | null
  if (value?.kind === 'nuchal-backup' && Number(value.format) > backupFormat) throw describeNewer(path)
  const read = headerShape.safeParse(value)
  if (!read.success || headerText(read.data) !== line) throw describeDamagedBackup(path, 'its first line is none of a backup')
  if (read.data.documentFormat > formatAfter(steps)) throw describeNewer(path)
  // Taken as it is, a backup that anybody could have written would pass for one sealed with the clinic's key.
  if (read.data.keyId === null && cipher.keyId !== null) throw describePlain(path)
  if (read.data.keyId !== cipher.keyId) throw keyedError(path, read.data.keyId, cipher.keyId)
  return read.data
}

function openLine(path: string, cipher: Cipher, header: BackupHeader, number: number, line: string): string {
  try {
    return unsealLine(cipher, header, number, line)
  } catch {
    throw describeDamagedBackup(path, 'a line is altered, missing or out of its place')
  }
}

function decodeLine(path: string, text: string, steps: readonly Migration[]): BackupContent {
  const read = lineShape.safeParse(parseOrNull(text))
  if (!read.success) throw describeDamagedBackup(path, 'a line is altered or cut')
  if ('file' in read.data) return { kind: 'file', file: read.data.file }
  if ('end' in read.data) return { kind: 'end', end: read.data.end }
  const copy = decodeCopy(read.data.document, steps)
  if (copy.kind === 'newer') throw describeNewer(path)
  if (copy.kind === 'damaged') throw describeDamagedBackup(path, `of a document, ${copy.what}`)
  return { kind: 'document', copy: copy.value }
}

function describePlain(path: string): StoreError {
  const mend = 'If it is the clinic\'s own, restore it with DATA_KEY empty, then encrypt what was restored with "migrate --rekey".'
  return new StoreError('keyed', `${path} is not encrypted, but DATA_KEY is set. ${mend} Nothing was changed.`)
}

function describeNewer(path: string): StoreError {
  return new StoreError('newer', `${path} was written by a newer version of this program. Install that version or a later one; nothing was changed.`)
}

function parseOrNull(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
