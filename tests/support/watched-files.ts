import { relative } from 'node:path'
import type { FileSystem } from '#src/stores/lowdb/file-system.ts'
import { nodeFileSystem } from '#src/stores/lowdb/file-system.ts'
import { makeSystemError } from './system-error.ts'

/** The real file system, every call noted in order, and any call made to fail once. */
export interface WatchedFiles extends FileSystem {
  readonly calls: string[]
  /** The next call whose note begins so fails with this code. */
  failNext(note: string, code: string): void
}

export function watchFiles(folder: string): WatchedFiles {
  const calls: string[] = []
  let planned: { readonly note: string; readonly code: string } | null = null

  function note(call: string, ...paths: readonly string[]): void {
    const text = [call, ...paths.map((path) => relative(folder, path) || '.')].join(' ')
    calls.push(text)
    if (planned === null || !text.startsWith(planned.note)) return
    const { code } = planned
    planned = null
    throw makeSystemError(code)
  }

  /** Notes the call, then makes it. */
  function watch<A extends readonly string[], R>(call: string, real: (...paths: A) => Promise<R>) {
    return async (...paths: A): Promise<R> => {
      note(call, ...paths)
      return real(...paths)
    }
  }

  return {
    calls,
    failNext(text, code) {
      planned = { note: text, code }
    },
    makeFolder: watch('makeFolder', nodeFileSystem.makeFolder),
    list: watch('list', nodeFileSystem.list),
    readText: watch('readText', nodeFileSystem.readText),
    rename: watch('rename', nodeFileSystem.rename),
    link: watch('link', nodeFileSystem.link),
    remove: watch('remove', nodeFileSystem.remove),
    removeFolder: watch('removeFolder', nodeFileSystem.removeFolder),
    syncFolder: watch('syncFolder', nodeFileSystem.syncFolder),
    modifiedAt: watch('modifiedAt', nodeFileSystem.modifiedAt),
    touch: (path, at) => watch('touch', (one: string) => nodeFileSystem.touch(one, at))(path),
    async create(path, mode) {
      note('create', path)
      const file = await nodeFileSystem.create(path, mode)
      return {
        write: (text) => watch('write', (_: string) => file.write(text))(path),
        sync: () => watch('sync', (_: string) => file.sync())(path),
        async close() {
          await file.close()
          note('close', path)
        },
      }
    },
  }
}

/** The calls of one durable write of a document: content synced before the rename, the name synced after it. */
export function durableWriteOf(document: string): readonly string[] {
  const path = `documents/${document}.json`
  return [
    `create ${path}.tmp`,
    `write ${path}.tmp`,
    `sync ${path}.tmp`,
    `close ${path}.tmp`,
    `remove ${path}.previous`,
    `link ${path} ${path}.previous`,
    `rename ${path}.tmp ${path}`,
    'syncFolder documents',
  ]
}
