import { mkdir, readFile, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { nodeFileSystem } from '#src/stores/lowdb/file-system.ts'
import { replaceFile } from '#src/stores/lowdb/replace-file.ts'
import { readErrorCode, toStoreError } from '#src/stores/store-failure.ts'
import type { ClinicFile } from './backup-format.ts'
import { clinicFileNames } from './clinic-file-names.ts'

export async function readClinicFiles(folder: string): Promise<readonly ClinicFile[]> {
  const found = await Promise.all(clinicFileNames.map((name) => readOne(folder, name)))
  return found.filter((file) => file !== null)
}

async function readOne(folder: string, name: ClinicFile['name']): Promise<ClinicFile | null> {
  try {
    return { name, text: await readFile(join(folder, name), 'utf8') }
  } catch (error) {
    if (readErrorCode(error) === 'ENOENT') return null
    throw toStoreError(error, join(folder, name))
  }
}

/** A file that stands there already stays; gives back the names of those. */
export async function placeClinicFiles(folder: string, files: readonly ClinicFile[]): Promise<readonly string[]> {
  const kept: string[] = []
  await mkdir(folder, { recursive: true, mode: 0o700 })
  for (const { name, text } of files) {
    const path = join(folder, name)
    if (await stands(path)) kept.push(name)
    else await replaceFile(nodeFileSystem, path, text, false).catch((error: unknown) => Promise.reject(toStoreError(error, path)))
  }
  return kept
}

function stands(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  )
}
