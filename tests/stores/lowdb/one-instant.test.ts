import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readOneInstant, type ChangingFolder } from '#src/stores/lowdb/one-instant.ts'

/** Files that others change whenever they may: at each moment the next of `changes`. */
function makeFolder(changes: readonly (readonly [path: string, content: string | null])[]) {
  const files = new Map<string, { readonly content: string; readonly version: number }>()
  const history: string[] = []
  const copied = new Map<string, string>()
  let version = 0
  const note = (): void => void history.push(show(new Map([...files].map(([path, { content }]) => [path, content]))))
  note()
  function happen(): void {
    const change = changes[version]
    if (change === undefined) return
    version += 1
    const [path, content] = change
    if (content === null) files.delete(path)
    else files.set(path, { content, version })
    note()
  }
  const folder: ChangingFolder = {
    async list() {
      happen()
      const paths = [...files.keys()]
      happen()
      return paths
    },
    identify: (paths) =>
      paths.map((path) => {
        const found = files.get(path)
        happen()
        return found === undefined ? null : `${found.version}`
      }),
    async read(path) {
      happen()
      const found = files.get(path)
      if (found !== undefined) copied.set(path, found.content)
      happen()
    },
    drop: (path) => void copied.delete(path),
  }
  return { folder, history, show: () => show(copied) }
}

function show(files: ReadonlyMap<string, string>): string {
  return JSON.stringify([...files].sort(([a], [b]) => (a < b ? -1 : 1)))
}

const change = fc.tuple(fc.constantFrom('a', 'b', 'c', 'd'), fc.option(fc.constantFrom('1', '2', '3'), { nil: null, freq: 4 }))

describe('reading one instant', () => {
  it('comes out as the files stood at one moment, whatever changes in between', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(change, { maxLength: 40 }), async (changes) => {
        const { folder, history, show: copied } = makeFolder(changes)
        const paths = await readOneInstant(folder, 100)
        expect(paths).not.toBeNull()
        expect(history).toContain(copied())
      }),
      { numRuns: 2_000, seed: 5 },
    )
  })

  it('reads a file once where nothing changes', async () => {
    const reads: string[] = []
    const folder: ChangingFolder = { list: async () => ['a', 'b'], identify: (paths) => paths.map(() => 'same'), read: async (path) => void reads.push(path), drop: () => {} }
    expect(await readOneInstant(folder, 10)).toEqual(['a', 'b'])
    expect(reads).toEqual(['a', 'b'])
  })

  it('has nothing to read in an empty folder', async () => {
    expect(await readOneInstant({ list: async () => [], identify: () => [], read: async () => {}, drop: () => {} }, 1)).toEqual([])
  })
})
