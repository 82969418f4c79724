import { readdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { DocumentCopy } from '#src/ports/archive.ts'
import { RestlessStoreError } from '#src/ports/copy-place.ts'
import { createLowdbPlace } from '#src/stores/lowdb/lowdb-place.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { readEnvelopes } from '#src/stores/lowdb/read-envelopes.ts'
import { plain } from '#src/stores/cipher.ts'
import { allOf } from '#tests/contracts/archive-contract.ts'
import { describeCopyPlace } from '#tests/contracts/copy-place-contract.ts'
import { readFolder } from '#tests/support/folder-bytes.ts'
import { makeMortalFiles } from '#tests/support/mortal-files.ts'
import { countUp, documentId, eventId, makeEntry, makeHead, makeTally } from '#tests/support/store-samples.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

describeCopyPlace('a data folder', async () => {
  const folder = join(await makeTemporaryFolder(), 'data')
  return {
    place: createLowdbPlace({ folder }),
    openStore: async () => {
      const store = createLowdbStore({ folder })
      await store.open()
      return store
    },
  }
})

const copies: readonly DocumentCopy[] = ['a', 'b', 'c'].map((name) => {
  const id = documentId(name)
  const entries = Array.from({ length: name === 'b' ? 80 : 1 }, (_, index) => makeEntry(`${name}-${index}`, { bulk: 'x'.repeat(1_000) }))
  return { document: makeTally(id, 1), head: makeHead(id), seen: [], owed: [], refs: [], entries }
})

/** A process that is killed there holds its lock no longer. */
const isAlive = (): boolean => false

async function fillWith(folder: string, files = makeMortalFiles(Infinity)): Promise<void> {
  await createLowdbPlace({ folder, files, isAlive }).fill(async (target) => {
    for (const copy of copies) await target.copyIn(copy)
  })
}

describe('a filling that is killed', () => {
  it('at any of its calls leaves an empty clinic, one that no start accepts, or the whole; and the next filling completes it', async () => {
    const whole = makeMortalFiles(Infinity)
    await fillWith(join(await makeTemporaryFolder(), 'data'), whole)
    const found = new Set<string>()
    for (let lives = 0; lives < whole.calls(); lives += 1) {
      const folder = join(await makeTemporaryFolder(), 'data')
      // Killed at its very last calls it has filled the folder all the same.
      const isDone = await fillWith(folder, makeMortalFiles(lives)).then(() => true, () => false)
      const left = await describeLeft(folder)
      if (isDone) expect(left).toBe('whole')
      found.add(left)
    }
    expect([...found].sort()).toEqual(['empty', 'refused', 'whole'])
  }, 120_000)

  async function describeLeft(folder: string): Promise<'empty' | 'refused' | 'whole'> {
    const store = createLowdbStore({ folder, isAlive })
    const code = await store.open().then(() => 'open', (error: { readonly code: string; readonly message: string }) => {
      expect(error.message).toMatch(/holds a copy that was put in only in part .*Run the same "restore" or "migrate" again/)
      return error.code
    })
    const heads = code === 'open' ? await store.heads() : []
    await store.close()
    if (code === 'damaged') await expect(readEnvelopes(folder, [], plain)).rejects.toMatchObject({ code: 'damaged' })
    if (heads.length === 0) await fillWith(folder)
    expect(await allOf(createLowdbPlace({ folder }))).toEqual(copies)
    expect([code === 'open' ? [0, copies.length] : [0]].flat()).toContain(heads.length)
    return code !== 'open' ? 'refused' : heads.length === 0 ? 'empty' : 'whole'
  }
})

describe('a data folder that is copied', () => {
  async function makeClinic(): Promise<string> {
    const folder = await makeTemporaryFolder()
    await fillWith(folder)
    return folder
  }

  it('is not changed in a byte, nor is anything made beside it', async () => {
    const folder = await makeClinic()
    const spoolFolder = await makeTemporaryFolder()
    const before = await readFolder(folder)
    await allOf(createLowdbPlace({ folder, spoolFolder }))
    expect(await readFolder(folder)).toEqual(before)
    expect(await readdir(spoolFolder)).toEqual([])
  })

  it('and never still is given up, after so many looks', async () => {
    const folder = await makeClinic()
    let looks = 0
    const identify = (paths: readonly string[]): readonly string[] => paths.map((_, index) => `${index === 0 ? (looks += 1) : 0}`)
    const error: unknown = await allOf(createLowdbPlace({ folder, looks: 7, identify })).catch((thrown: unknown) => thrown)
    expect(error).toBeInstanceOf(RestlessStoreError)
    expect(String(error)).toContain('Run it again at a quieter hour, or stop the process')
    expect(looks).toBe(7)
  })

  it('and lost a document while its last generation stands is refused, by the name of the file', async () => {
    const folder = await makeClinic()
    const store = createLowdbStore({ folder })
    await store.open()
    await store.apply(documentId('a'), eventId('2'), countUp(documentId('a')))
    await store.close()
    await rm(join(folder, 'documents/a.json'))
    await expect(allOf(createLowdbPlace({ folder }))).rejects.toMatchObject({ code: 'damaged', message: expect.stringContaining('a.json is damaged: it is missing') as string })
  })

  it('and lost a volume is refused, by the name of the file', async () => {
    const folder = await makeClinic()
    await rm(join(folder, 'volumes/b/1.json'))
    await expect(allOf(createLowdbPlace({ folder }))).rejects.toMatchObject({ code: 'damaged', message: expect.stringContaining('1.json is missing') as string })
  })

  it('leaves out what is erased before it was reached', async () => {
    const folder = await makeClinic()
    const store = createLowdbStore({ folder })
    await store.open()
    const seen: string[] = []
    for await (const { document } of createLowdbPlace({ folder }).copyOut()) {
      seen.push(document.id)
      if (document.id === 'a') await store.erase(documentId('b'))
    }
    await store.close()
    expect(seen).toEqual(['a', 'c'])
  })
})
