import { link, mkdir, open, readFile, readdir, rename, rm, stat, unlink, utimes } from 'node:fs/promises'
import type { Instant } from '#src/domain/identifier.ts'

export interface OpenFile {
  write(text: string): Promise<void>
  /** Resolves when the content is on the disk. */
  sync(): Promise<void>
  close(): Promise<void>
}

/** The calls that the embedded store makes of the operating system, no others. They reject with the system's codes. */
export interface FileSystem {
  /** Makes a folder and those above it; gives the topmost one that was made, or null if all stood. */
  makeFolder(path: string): Promise<string | null>
  list(path: string): Promise<readonly string[]>
  readText(path: string): Promise<string>
  /** Opens an empty file; `exclusive` fails with EEXIST where one stands, else it is emptied. */
  create(path: string, mode: 'exclusive' | 'replace'): Promise<OpenFile>
  rename(from: string, to: string): Promise<void>
  /** A second name for the same content; EEXIST where one stands. */
  link(from: string, to: string): Promise<void>
  remove(path: string): Promise<void>
  /** With all that is in it; resolves where none stands. */
  removeFolder(path: string): Promise<void>
  /** Resolves when the names in the folder are on the disk. */
  syncFolder(path: string): Promise<void>
  modifiedAt(path: string): Promise<Instant>
  touch(path: string, at: Instant): Promise<void>
}

/** Records are the owner's alone. */
const folderMode = 0o700
const fileMode = 0o600

/** Windows cannot open a folder to sync it; NTFS journals its names itself. */
const canSyncFolders = process.platform !== 'win32'

export const nodeFileSystem: FileSystem = {
  async makeFolder(path) {
    return (await mkdir(path, { recursive: true, mode: folderMode })) ?? null
  },
  list: (path) => readdir(path),
  readText: (path) => readFile(path, 'utf8'),
  async create(path, mode) {
    const handle = await open(path, mode === 'exclusive' ? 'wx' : 'w', fileMode)
    return {
      write: (text) => handle.writeFile(text, 'utf8'),
      sync: () => handle.sync(),
      close: () => handle.close(),
    }
  },
  rename,
  link,
  remove: unlink,
  removeFolder: (path) => rm(path, { recursive: true, force: true }),
  async syncFolder(path) {
    if (!canSyncFolders) return
    const handle = await open(path, 'r')
    try {
      await handle.sync()
    } finally {
      await handle.close()
    }
  },
  async modifiedAt(path) {
    return (await stat(path)).mtimeMs
  },
  touch: (path, at) => utimes(path, at / 1000, at / 1000),
}
