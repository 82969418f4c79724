import { tmpdir } from 'node:os'
import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { DocumentCopy } from '#src/ports/archive.ts'
import { RestlessStoreError } from '#src/ports/copy-place.ts'
import { StoreError } from '#src/ports/store.ts'
import { copyOf } from '../document-copy.ts'
import type { Envelope } from '../envelope.ts'
import { readErrorCode, toStoreError } from '../store-failure.ts'
import { describeDamaged } from './file-adapter.ts'
import type { FileSystem } from './file-system.ts'
import { refuseFilling } from './filling-mark.ts'
import { documentFile, listDocuments, openFile, volumeFile, type DocumentNames, type FolderContent } from './folder-content.ts'
import { describeMissing } from './folder-shelf.ts'
import { requireOneKey } from './key-change.ts'
import { identifyFiles, readOneInstant } from './one-instant.ts'
import { openSpool, type Spool } from './spool.ts'

export interface CopyFolderOptions extends FolderContent {
  /** Where the documents lie meanwhile, as they lay in the folder; by default where the system keeps such things. */
  readonly spoolFolder?: string
  /** Whether a folder that is filled only in part will do: for whoever fills it. */
  readonly isBeingFilled?: boolean
  readonly looks?: number
  readonly identify?: typeof identifyFiles
}

/** Our choice: a clinic that this store is made for is still at every few looks, also at its busiest hour. */
const mostLooks = 300

/**
 * Everything in a data folder as of one instant, beside the process that has it: nothing is locked or changed there.
 * Documents are read into a file of their own first, so that memory does not grow with the clinic; their volumes never
 * change. What was erased meanwhile is left out.
 */
export async function* copyFolderOut(options: CopyFolderOptions): AsyncGenerator<DocumentCopy> {
  const { folder, files, spoolFolder = tmpdir(), isBeingFilled = false } = options
  await requireOneKey(files, folder)
  if (!isBeingFilled) await refuseFilling(files, folder)
  const spool = await openSpool(spoolFolder).catch((error: unknown) => Promise.reject(toStoreError(error, spoolFolder)))
  try {
    const ids = await spoolDocuments(options, spool)
    const spooled = { ...options, files: readingFrom(spool, files) }
    for (const id of ids) {
      const envelope = await openFile(spooled, documentFile(spooled, id)).read()
      if (envelope === null) throw new Error('a document that was read is gone')
      const entries = await readRecord(options, envelope)
      if (entries !== null) yield copyOf(envelope, entries)
    }
  } finally {
    await spool.close()
  }
}

/** Gives back the ids in order. */
async function spoolDocuments(options: CopyFolderOptions, spool: Spool): Promise<readonly DocumentId[]> {
  const { folder, files, looks = mostLooks, identify = identifyFiles } = options
  const ids = new Map<string, DocumentId>()
  let listed: readonly DocumentNames[] = []
  const list = async (): Promise<readonly string[]> => {
    listed = await listDocuments(options)
    for (const { id } of listed) ids.set(documentFile(options, id).path, id)
    return [...ids.keys()]
  }
  const read = (path: string): Promise<void> => spoolFile(files, spool, path)
  const paths = await readOneInstant({ list, identify, read, drop: (path) => spool.drop(path) }, looks)
  if (paths === null) throw describeRestless(folder)
  const standing = paths.flatMap((path) => ids.get(path) ?? [])
  const lost = listed.filter(({ id, hasPrevious }) => hasPrevious && !standing.includes(id))
  if (lost[0] !== undefined) throw await describeDamaged(files, documentFile(options, lost[0].id), 'it is missing')
  return standing.sort(byCodeUnits)
}

async function spoolFile(files: FileSystem, spool: Spool, path: string): Promise<void> {
  try {
    await spool.put(path, await files.readText(path))
  } catch (error) {
    // Erased since it was looked at; the next look tells.
    if (readErrorCode(error) !== 'ENOENT') throw toStoreError(error, path)
  }
}

function readingFrom(spool: Spool, files: FileSystem): FileSystem {
  return { ...files, readText: async (path) => (await spool.get(path)) ?? files.readText(path) }
}

/** The whole record, or null where the document was erased meanwhile, and its volumes with it. */
async function readRecord(content: FolderContent, envelope: Envelope): Promise<readonly Entry[] | null> {
  const record: Entry[] = []
  for (let number = 1; number <= envelope.volumes; number += 1) {
    const file = volumeFile(content, envelope.id, number)
    const volume = await openFile(content, file).read()
    if (volume === null && (await openFile(content, documentFile(content, envelope.id)).read()) === null) return null
    if (volume === null) throw describeMissing(file.path)
    record.push(...volume.entries)
  }
  return [...record, ...envelope.entries]
}

function describeRestless(folder: string): RestlessStoreError {
  const mend = 'Run it again at a quieter hour, or stop the process for as long as it takes.'
  return new RestlessStoreError(`The data folder ${folder} changed whenever it was looked at, so that no copy of one instant came about. ${mend}`)
}

/** The port's order: the same on every machine, which a locale's is not. */
function byCodeUnits(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}

/** Rejects where nothing was ever stored: a folder that was named by mistake must not pass for a clinic. */
export async function requireDocuments({ files, folder }: FolderContent): Promise<void> {
  if ((await listDocuments({ files, folder })).length > 0) return
  throw new StoreError('unavailable', `Nothing is stored in ${folder}. Set DATA_DIR to the folder of the clinic.`)
}
