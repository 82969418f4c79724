/** Texts by key: what outlives a store in memory, so that a second one can read what the first wrote. */
export interface MemoryDisk {
  /** The store that uses it now; a second one is refused. */
  holder: symbol | null
  get(key: string): string | null
  put(key: string, text: string): Promise<void>
  remove(key: string): void
  keys(): readonly string[]
}

export function createMemoryDisk(): MemoryDisk {
  const texts = new Map<string, string>()
  return {
    holder: null,
    get: (key) => texts.get(key) ?? null,
    async put(key, text) {
      texts.set(key, text)
    },
    remove: (key) => void texts.delete(key),
    keys: () => [...texts.keys()],
  }
}
