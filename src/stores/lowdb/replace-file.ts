import { dirname } from 'node:path'
import { readErrorCode } from '../store-failure.ts'
import type { FileSystem } from './file-system.ts'

/** The name under which a file's last generation stays. */
export function previousOf(path: string): string {
  return `${path}.previous`
}

/**
 * Puts `text` at `path`, all or nothing, and resolves when both the content and the name are on the disk. The name
 * always leads to a whole file: the old one until the rename, then the new one.
 */
export async function replaceFile(files: FileSystem, path: string, text: string, keepsPrevious: boolean): Promise<void> {
  const draft = draftOf(path)
  try {
    await writeSynced(files, draft, text)
    if (keepsPrevious) await keepPrevious(files, path)
    await files.rename(draft, path)
  } catch (error) {
    await files.remove(draft).catch(() => {})
    throw error
  }
  await files.syncFolder(dirname(path))
}

/** Writes a new file and syncs its content, not its name. */
export async function writeSynced(
  files: FileSystem,
  path: string,
  text: string,
  mode: 'exclusive' | 'replace' = 'replace',
): Promise<void> {
  const file = await files.create(path, mode)
  try {
    await file.write(text)
    await file.sync()
  } finally {
    await file.close()
  }
}

/** Hard links are missing on some file systems (e.g. FAT): there no last generation is kept. */
const withoutLinks: ReadonlySet<string | null> = new Set(['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS'])

export function lacksLinks(error: unknown): boolean {
  return withoutLinks.has(readErrorCode(error))
}

/**
 * A second name for the file about to be replaced. Its content was synced when it was written, and the folder is synced
 * after the rename anyhow, so keeping it costs no further sync.
 */
async function keepPrevious(files: FileSystem, path: string): Promise<void> {
  await files.remove(previousOf(path)).catch(passMissing)
  await files.link(path, previousOf(path)).catch((error: unknown) => {
    if (!lacksLinks(error)) passMissing(error)
  })
}

/** Removes a file with its last generation and draft, and syncs the folder; files that are gone are no failure. */
export async function removeFile(files: FileSystem, path: string): Promise<void> {
  // The last generation first: one that stands alone would be taken for the copy of a lost file.
  for (const one of [previousOf(path), draftOf(path), path]) await files.remove(one).catch(passMissing)
  await files.syncFolder(dirname(path))
}

export function draftOf(path: string): string {
  return `${path}.tmp`
}

function passMissing(error: unknown): void {
  if (readErrorCode(error) !== 'ENOENT') throw error
}
