import { createHash, randomBytes } from 'node:crypto'
import { link, open, rename, rm, type FileHandle } from 'node:fs/promises'
import { dirname } from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { createGzip } from 'node:zlib'
import type { DocumentCopy } from '#src/ports/archive.ts'
import type { Instant } from '#src/domain/identifier.ts'
import type { Cipher } from '#src/stores/cipher.ts'
import { nodeFileSystem } from '#src/stores/lowdb/file-system.ts'
import { lacksLinks } from '#src/stores/lowdb/replace-file.ts'
import { readErrorCode, toStoreError } from '#src/stores/store-failure.ts'
import { InputError } from '../input-error.ts'
import { backupFormat, encodeHeader, headerText, sealLine, type BackupEnd, type BackupHeader, type BackupLine, type ClinicFile } from './backup-format.ts'

export interface BackupParts {
  readonly path: string
  /** Whether a file that stands there gives way, once the new one is whole. */
  readonly replaces: boolean
  readonly copies: AsyncIterable<DocumentCopy>
  readonly files: readonly ClinicFile[]
  readonly cipher: Cipher
  readonly documentFormat: number
  readonly at: Instant
  readonly onDocument: () => void
}

export type WrittenBackup = BackupHeader & BackupEnd

/** Writes beside `path`, syncs, and gives it its name: a file of that name is whole, whatever happens. Memory holds one document. */
export async function writeBackup(parts: BackupParts): Promise<WrittenBackup> {
  const { path, replaces } = parts
  const draft = `${path}.${randomBytes(4).toString('hex')}.part`
  try {
    const written = await writeDraft(draft, parts)
    await giveName(draft, path, replaces)
    return written
  } catch (error) {
    if (readErrorCode(error) === 'EEXIST') throw describeStanding(path)
    throw toStoreError(error, path)
  } finally {
    await rm(draft, { force: true })
    await nodeFileSystem.syncFolder(dirname(path)).catch(() => undefined)
  }
}

/** A name taken meanwhile stays whose it is, wherever the file system knows second names. */
async function giveName(draft: string, path: string, replaces: boolean): Promise<void> {
  if (replaces) return rename(draft, path)
  try {
    await link(draft, path)
  } catch (error) {
    if (!lacksLinks(error)) throw error
    await rename(draft, path)
  }
}

export function describeStanding(path: string): InputError {
  return new InputError(`${path} stands already. Name another file, or add --replace.`)
}

async function writeDraft(draft: string, parts: BackupParts): Promise<WrittenBackup> {
  const { cipher, documentFormat, at } = parts
  const begun: BackupHeader = {
    kind: 'nuchal-backup',
    format: backupFormat,
    id: randomBytes(16).toString('hex'),
    writtenAt: new Date(at).toISOString(),
    documents: 0,
    documentFormat,
    keyId: cipher.keyId,
  }
  const handle = await open(draft, 'wx', 0o600)
  try {
    const room = encodeHeader(begun)
    await handle.write(room, 0, room.length, 0)
    const told: { written: WrittenBackup | null } = { written: null }
    const lines = writeLines(begun, parts, (written) => {
      told.written = written
    })
    await pipeline(Readable.from(lines), createGzip(), (chunks: AsyncIterable<Buffer>) => writeAll(handle, chunks, room.length))
    if (told.written === null) throw new Error('a backup ended without its end')
    await writeHeader(handle, told.written, room.length)
    await handle.sync()
    return told.written
  } finally {
    await handle.close()
  }
}

async function writeAll(handle: FileHandle, chunks: AsyncIterable<Buffer>, start: number): Promise<void> {
  let at = start
  for await (const chunk of chunks) {
    for (let done = 0; done < chunk.length; ) done += (await handle.write(chunk, done, chunk.length - done, at + done)).bytesWritten
    at += chunk.length
  }
}

/** How many documents there are is only known now. */
async function writeHeader(handle: FileHandle, { documents, ...written }: WrittenBackup, length: number): Promise<void> {
  const { kind, format, id, writtenAt, documentFormat, keyId } = written
  const header = encodeHeader({ kind, format, id, writtenAt, documents, documentFormat, keyId })
  if (header.length !== length) throw new Error('the first line of a backup changed its length')
  await handle.write(header, 0, header.length, 0)
}

async function* writeLines(begun: BackupHeader, { copies, files, cipher, onDocument }: BackupParts, done: (written: WrittenBackup) => void): AsyncGenerator<string> {
  const hash = createHash('sha256')
  let [number, documents, entries] = [0, 0, 0]
  const write = (line: BackupLine): string => {
    number += 1
    const text = JSON.stringify(line)
    if (!('end' in line)) hash.update(`${text}\n`)
    return `${sealLine(cipher, begun, number, text)}\n`
  }
  for (const file of files) yield write({ file })
  for await (const document of copies) {
    yield write({ document })
    documents += 1
    entries += document.entries.length
    onDocument()
  }
  // The first line is hashed last: only now is it known.
  const sha256 = hash.update(`${headerText({ ...begun, documents })}\n`).digest('hex')
  const end: BackupEnd = { documents, files: files.length, entries, sha256 }
  yield write({ end })
  done({ ...begun, ...end })
}
