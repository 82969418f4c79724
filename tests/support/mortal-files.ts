import { nodeFileSystem, type FileSystem, type OpenFile } from '#src/stores/lowdb/file-system.ts'

/** The real file system for a process that is killed at one of its calls: that one and all later ones never come back as done. */
export interface MortalFiles extends FileSystem {
  /** Calls made so far. */
  calls(): number
}

/** `lives` calls are carried out; what is being written at the next one is half on the disk. */
export function makeMortalFiles(lives: number): MortalFiles {
  let calls = 0

  function live(): void {
    calls += 1
    if (calls > lives) throw new Error('the process was killed')
  }

  function mortal<A extends readonly unknown[], R>(real: (...args: A) => Promise<R>) {
    return async (...args: A): Promise<R> => {
      live()
      return real(...args)
    }
  }

  function mortalFile(file: OpenFile): OpenFile {
    return {
      async write(text) {
        try {
          live()
        } catch (error) {
          if (calls === lives + 1) await file.write(text.slice(0, text.length / 2))
          throw error
        }
        await file.write(text)
      },
      sync: mortal(file.sync),
      // A dead process holds no file open.
      async close() {
        await file.close()
        live()
      },
    }
  }

  return {
    calls: () => calls,
    makeFolder: mortal(nodeFileSystem.makeFolder),
    list: mortal(nodeFileSystem.list),
    readText: mortal(nodeFileSystem.readText),
    rename: mortal(nodeFileSystem.rename),
    link: mortal(nodeFileSystem.link),
    remove: mortal(nodeFileSystem.remove),
    removeFolder: mortal(nodeFileSystem.removeFolder),
    syncFolder: mortal(nodeFileSystem.syncFolder),
    modifiedAt: mortal(nodeFileSystem.modifiedAt),
    touch: mortal(nodeFileSystem.touch),
    async create(path, mode) {
      live()
      return mortalFile(await nodeFileSystem.create(path, mode))
    },
  }
}
