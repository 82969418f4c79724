import { createMemoryDisk, type MemoryDisk } from '#src/stores/memory/memory-disk.ts'

/** A disk in memory that can be made slow or full, and that survives the process that used it. */
export class FragileDisk implements MemoryDisk {
  holder: symbol | null = null
  /** Awaited before each write; throws like a failing disk. */
  beforePut: (key: string) => void | Promise<void> = () => {}
  /** Awaited when the write is durable but its writer does not know yet. */
  afterPut: (key: string) => void | Promise<void> = () => {}
  puts = 0
  readonly #disk = createMemoryDisk()

  get(key: string): string | null {
    return this.#disk.get(key)
  }

  keys(): readonly string[] {
    return this.#disk.keys()
  }

  remove(key: string): void {
    this.#disk.remove(key)
  }

  async put(key: string, text: string): Promise<void> {
    await this.beforePut(key)
    await this.#disk.put(key, text)
    this.puts += 1
    await this.afterPut(key)
  }

  /** What a process finds that starts after the one using this disk was killed. */
  async afterKill(): Promise<FragileDisk> {
    const copy = new FragileDisk()
    for (const key of this.keys()) await copy.put(key, this.get(key) ?? '')
    return copy
  }
}

/** An error as node gives it when a disk fails. */
export function diskError(code: 'ENOSPC' | 'EIO'): Error {
  return Object.assign(new Error('write failed'), { code })
}
