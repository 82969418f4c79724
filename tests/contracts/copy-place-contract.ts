import { describe, expect, it } from 'vitest'
import type { DocumentCopy } from '#src/ports/archive.ts'
import type { CopyPlace } from '#src/ports/copy-place.ts'
import type { Store } from '#src/ports/store.ts'
import { countUp, documentId, eventId, makeEntry, makeHead, makeTally } from '#tests/support/store-samples.ts'
import { allOf } from './archive-contract.ts'

export interface PlaceUnderTest {
  /** With nothing in it. */
  readonly place: CopyPlace
  /** As a `start` would: rejects where that would be refused. */
  openStore(): Promise<Store>
}

const chart = documentId('chart-1')

function copyNamed(name: string): DocumentCopy {
  const id = documentId(name)
  return { document: makeTally(id, 1), head: makeHead(id), seen: [eventId('1')], owed: [], refs: [], entries: [makeEntry('e')] }
}

/** What every place promises to whoever copies a whole clinic. */
export function describeCopyPlace(name: string, make: () => Promise<PlaceUnderTest>): void {
  describe(`${name} as a place for copies`, () => {
    async function filled(): Promise<PlaceUnderTest> {
      const under = await make()
      await under.place.fill(async (target) => {
        for (const one of ['chart-1', 'chart-2']) await target.copyIn(copyNamed(one))
      })
      return under
    }

    it('holds what it was filled with, for copies and for a start', async () => {
      const { place, openStore } = await filled()

      const copies = await allOf(place)
      const store = await openStore()
      const heads = await store.heads()
      await store.close()

      expect(copies).toEqual([copyNamed('chart-1'), copyNamed('chart-2')])
      expect(heads.map((head) => head.id)).toEqual(['chart-1', 'chart-2'])
    })

    it('shows whoever fills it what lies there so far, and gives back what they made of it', async () => {
      const { place } = await make()
      const seen = await place.fill(async (target) => {
        await target.copyIn(copyNamed('chart-1'))
        return allOf(target)
      })
      expect(seen).toEqual([copyNamed('chart-1')])
    })

    it('is not filled where documents stand', async () => {
      const { place } = await filled()
      const again = place.fill((target) => target.copyIn(copyNamed('chart-3')))
      await expect(again).rejects.toMatchObject({ name: 'StoreError', code: 'unavailable', message: expect.stringContaining('holds documents already') as string })
      expect((await allOf(place)).map(({ document }) => document.id)).toEqual(['chart-1', 'chart-2'])
    })

    it('is empty again after a filling that failed, and may be filled', async () => {
      const { place, openStore } = await make()
      const mistake = new Error('a mistake')
      const failed = place.fill(async (target) => {
        await target.copyIn(copyNamed('chart-1'))
        throw mistake
      })
      await expect(failed).rejects.toBe(mistake)
      const store = await openStore()
      const heads = await store.heads()
      await store.close()
      await place.fill((target) => target.copyIn(copyNamed('chart-2')))

      expect(heads).toEqual([])
      expect((await allOf(place)).map(({ document }) => document.id)).toEqual(['chart-2'])
    })

    it('is closed to a start and to copies while it is filled', async () => {
      const { place, openStore } = await make()
      const refused = await place.fill(async (target) => {
        await target.copyIn(copyNamed('chart-1'))
        return [await codeOf(openStore()), await codeOf(allOf(place))]
      })
      // A folder is locked as well, which is told first.
      expect([['locked', 'damaged'], ['damaged', 'damaged']]).toContainEqual(refused)
    })

    it('is neither held nor filled beside a running store, but copied', async () => {
      const { place, openStore } = await filled()
      const store = await openStore()
      const refused = [await codeOf(place.whileHeld(async () => {})), await codeOf(place.fill(async () => {}))]
      const copies = await allOf(place)
      await store.apply(chart, eventId('2'), countUp(chart))
      await store.close()

      expect(refused).toEqual(['locked', 'locked'])
      expect(copies).toEqual([copyNamed('chart-1'), copyNamed('chart-2')])
    })

    it('is held with all that it holds, and left as it was', async () => {
      const { place } = await filled()
      const held = await place.whileHeld((source) => allOf(source))
      expect(held).toEqual([copyNamed('chart-1'), copyNamed('chart-2')])
      expect(await allOf(place)).toEqual(held)
    })

    it('with nothing in it is no clinic that could be copied', async () => {
      const { place } = await make()
      expect([await codeOf(allOf(place)), await codeOf(place.whileHeld(async () => {}))]).toEqual(['unavailable', 'unavailable'])
    })
  })
}

async function codeOf(work: Promise<unknown>): Promise<unknown> {
  return work.then(
    () => 'done',
    (error: { readonly code?: unknown }) => error.code,
  )
}
