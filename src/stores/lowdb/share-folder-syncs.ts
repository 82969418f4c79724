import type { FileSystem } from './file-system.ts'

/**
 * Many documents lie in one folder and are written side by side. One sync of the folder serves everyone who asked before
 * it began; who asks while it runs waits for the next, since the running one may have passed their name by.
 */
export function shareFolderSyncs(files: FileSystem): FileSystem {
  const running = new Map<string, Promise<void>>()
  const following = new Map<string, Promise<void>>()

  function begin(path: string): Promise<void> {
    following.delete(path)
    const sync = files.syncFolder(path).finally(() => running.delete(path))
    running.set(path, sync)
    return sync
  }

  return {
    ...files,
    syncFolder(path) {
      const current = running.get(path)
      const next = following.get(path) ?? current?.then(ignore, ignore).then(() => begin(path))
      if (next === undefined) return begin(path)
      following.set(path, next)
      return next
    },
  }
}

function ignore(): void {}
