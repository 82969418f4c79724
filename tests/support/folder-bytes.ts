import { readFile, readdir, stat } from 'node:fs/promises'
import { join } from 'node:path'

/** Every file of a folder by its path in it, byte by byte. */
export async function readFolder(folder: string): Promise<ReadonlyMap<string, Buffer>> {
  const paths = (await readdir(folder, { recursive: true })).toSorted()
  const files = new Map<string, Buffer>()
  for (const path of paths) if ((await stat(join(folder, path))).isFile()) files.set(path, await readFile(join(folder, path)))
  return files
}

/**
 * Which of `words` can be read anywhere in a folder, with where: in names of files, in their bytes as they stand, and in what
 * their base64 stands for.
 */
export async function findReadable(folder: string, words: readonly string[]): Promise<readonly string[]> {
  const found: string[] = []
  for (const [path, bytes] of await readFolder(folder)) {
    const text = bytes.toString('latin1')
    const decoded = (text.match(/[A-Za-z0-9+/]{24,}={0,2}/g) ?? []).map((run) => Buffer.from(run, 'base64'))
    for (const word of words) {
      if ([Buffer.from(path), bytes, ...decoded].some((place) => place.includes(word))) found.push(`${word} in ${path}`)
    }
  }
  return found
}
