import { statSync } from 'node:fs'

/** A folder of files that are only ever replaced whole, by others, at any moment. */
export interface ChangingFolder {
  /** The files that may stand there; one that does not is no harm, one left out is. */
  readonly list: () => Promise<readonly string[]>
  /** What differs for two contents of one name, or null where no file stands; all in one go, since a look must be short. */
  readonly identify: (paths: readonly string[]) => readonly (string | null)[]
  readonly read: (path: string) => Promise<void>
  /** It is gone. */
  readonly drop: (path: string) => void
}

/**
 * Reads every file until all that was read stood there at one instant: the beginning of a look that found each file
 * as it had been before it was read. Gives back the files, or null after `looks` looks in vain.
 */
export async function readOneInstant(folder: ChangingFolder, looks: number): Promise<readonly string[] | null> {
  const known = new Map<string, string>()
  for (let look = 0; look < looks; look += 1) {
    const paths = [...new Set([...known.keys(), ...(await folder.list())])]
    const identities = folder.identify(paths)
    const changed = paths.flatMap((path, index) => (identities[index] === (known.get(path) ?? null) ? [] : [{ path, identity: identities[index] ?? null }]))
    if (changed.length === 0) return [...known.keys()]
    for (const { path, identity } of changed) {
      if (identity === null) {
        known.delete(path)
        folder.drop(path)
        continue
      }
      // What stood there before it was read: a newer content is then told by the next look, and read again.
      known.set(path, identity)
      await folder.read(path)
    }
  }
  return null
}

/** Every replacement is a file of its own, made later: number, times in nanoseconds and size. */
export function identifyFiles(paths: readonly string[]): readonly (string | null)[] {
  return paths.map((path) => {
    const found = statSync(path, { bigint: true, throwIfNoEntry: false })
    return found === undefined ? null : `${found.ino} ${found.mtimeNs} ${found.ctimeNs} ${found.size}`
  })
}
