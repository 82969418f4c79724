import { join } from 'node:path'
import type { Instant } from '#src/domain/identifier.ts'
import { StoreError } from '#src/ports/store.ts'
import { readErrorCode } from '../store-failure.ts'
import type { FileSystem } from './file-system.ts'
import { describeOwnProcess, isHolderAlive, isSameBoot, lockHolderShape } from './process-identity.ts'
import type { LockHolder } from './process-identity.ts'
import { lacksLinks, writeSynced } from './replace-file.ts'

export interface FolderLock {
  /** Shows that the holder lives, and notices if the lock was taken away; then {@link isLost}. */
  beat(): Promise<void>
  isLost(): boolean
  release(): Promise<void>
}

export interface LockOptions {
  readonly files: FileSystem
  readonly folder: string
  readonly self?: LockHolder
  readonly isAlive?: (holder: LockHolder) => boolean
  readonly now?: () => Instant
}

/** Our choice. A holder in another container or on another machine is only known by its beats. */
export const beatEveryMs = 5_000
const silentAfterMs = 30_000

/** Takes the folder for this process or rejects at once with a `locked` StoreError that names the holder. */
export async function lockFolder(options: LockOptions): Promise<FolderLock> {
  const { files, folder, self = describeOwnProcess(), isAlive = isHolderAlive, now = Date.now } = options
  const path = join(folder, 'lock.json')
  await seize({ files, folder, self, isAlive, now }, path)
  return holdLock(files, folder, self, now)
}

/**
 * Makes `path` name this process, over nobody who lives. A stale name is only replaced by whoever holds the right to
 * that very name, a file called after its token, seized in the same way; so of many that find it stale one goes on.
 */
async function seize(options: Required<LockOptions>, path: string): Promise<void> {
  const { files, folder, self, isAlive, now } = options
  // Twice, because what stood there may be gone when it is read.
  for (const _attempt of ['first', 'second']) {
    if (await claim(files, folder, self, path)) return
    const found = await readHolder(files, path)
    if (found === 'gone') continue
    if (found === 'unreadable') throw describeUnreadable(path)
    const silentMs = now() - (await files.modifiedAt(path).catch(now))
    if (isHeld(found, self, isAlive, silentMs)) throw describeHeld(folder, found, self)
    if (await replaceStale(options, path, found)) return
  }
  throw new StoreError('locked', `Another process is just taking the data folder ${folder}. Let only one run.`)
}

async function replaceStale(options: Required<LockOptions>, path: string, stale: LockHolder): Promise<boolean> {
  const { files, folder, self } = options
  const right = join(folder, `lock.${stale.token}.taken`)
  await seize(options, right)
  try {
    const found = await readHolder(files, path)
    if (typeof found === 'string' || found.token !== stale.token) return false
    const draft = await writeDraft(files, folder, self)
    await files.rename(draft, path)
    return true
  } finally {
    await files.remove(right)
  }
}

function isHeld(
  holder: LockHolder,
  self: LockHolder,
  isAlive: (holder: LockHolder) => boolean,
  silentMs: number,
): boolean {
  const isOfThisBoot = isSameBoot(holder.boot, self.boot)
  if (isOfThisBoot && holder.namespace === self.namespace) return isAlive(holder)
  if (!isOfThisBoot && holder.host === self.host) return false
  return silentMs < silentAfterMs
}

function holdLock(files: FileSystem, folder: string, self: LockHolder, now: () => Instant): FolderLock {
  const path = join(folder, 'lock.json')
  let isLost = false

  async function isOwn(): Promise<boolean> {
    const found = await readHolder(files, path)
    if (found === 'gone') return claim(files, folder, self, path)
    return found !== 'unreadable' && found.token === self.token
  }

  return {
    async beat() {
      if (isLost) return
      if (await isOwn()) await files.touch(path, now())
      else isLost = true
    },
    isLost: () => isLost,
    async release() {
      const found = await readHolder(files, path)
      if (typeof found === 'object' && found.token === self.token) await files.remove(path)
    },
  }
}

/** The name appears with its whole content or not at all, and only one can have it. */
async function claim(files: FileSystem, folder: string, self: LockHolder, path: string): Promise<boolean> {
  const draft = await writeDraft(files, folder, self)
  try {
    await files.link(draft, path)
  } catch (error) {
    if (readErrorCode(error) === 'EEXIST') return false
    if (!lacksLinks(error)) throw error
    return await claimWithoutLinks(files, path, describeOnOneLine(self))
  } finally {
    await files.remove(draft)
  }
  return true
}

async function writeDraft(files: FileSystem, folder: string, self: LockHolder): Promise<string> {
  const draft = join(folder, `lock.${self.token}.tmp`)
  await writeSynced(files, draft, describeOnOneLine(self))
  return draft
}

function describeOnOneLine(self: LockHolder): string {
  return `${JSON.stringify(self)}\n`
}

async function claimWithoutLinks(files: FileSystem, path: string, text: string): Promise<boolean> {
  try {
    await writeSynced(files, path, text, 'exclusive')
  } catch (error) {
    if (readErrorCode(error) === 'EEXIST') return false
    throw error
  }
  return true
}

async function readHolder(files: FileSystem, path: string): Promise<LockHolder | 'gone' | 'unreadable'> {
  try {
    return lockHolderShape.parse(JSON.parse(await files.readText(path)))
  } catch (error) {
    if (readErrorCode(error) === 'ENOENT') return 'gone'
    return 'unreadable'
  }
}

function describeHeld(folder: string, holder: LockHolder, self: LockHolder): StoreError {
  const isNear = holder.host === self.host && holder.namespace === self.namespace
  const where = isNear ? '' : ` in another container or machine (${holder.host})`
  const wait = isNear ? '' : ' It counts as stopped half a minute after its last sign of life.'
  const mend = `Stop that process first, or set DATA_DIR to another folder.${wait}`
  return new StoreError('locked', `The data folder ${folder} is in use by process ${holder.pid}${where}. ${mend}`)
}

function describeUnreadable(path: string): StoreError {
  const mend = 'If no other process uses the folder, remove that file and start again.'
  return new StoreError('locked', `The lock file ${path} cannot be read, so it is unknown who uses the folder. ${mend}`)
}
