import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { brandAs, type EntryId } from '#src/domain/identifier.ts'
import type { Effect } from '#src/domain/message.ts'
import type { Archive, DocumentCopy } from '#src/ports/archive.ts'
import type { DocumentKind, Store } from '#src/ports/store.ts'
import { flush } from '#tests/support/manual-clock.ts'
import { countUp, documentId, effectId, eventId, makeEntry, makeHead, makeSend, makeTally, type Tally } from '#tests/support/store-samples.ts'

export interface ArchiveUnderTest {
  /** Open, on the same place as the archive. */
  readonly store: Store
  readonly archive: Archive
  /** Another place with nothing in it, opened like this one; disposed of with it. */
  another(): Promise<ArchiveUnderTest>
  /** Closes the store and opens another instance on what it left. */
  reopen(): Promise<Store>
  dispose(): Promise<void>
}

export async function allOf(archive: Pick<Archive, 'copyOut'>): Promise<readonly DocumentCopy[]> {
  const copies: DocumentCopy[] = []
  for await (const copy of archive.copyOut()) copies.push(copy)
  return copies
}

/** What chats may hold and formats stumble over: no letter at all, halves of characters, ends of lines of other alphabets. */
const oddText = '\u0000 \u0001 \u007f \u2028 \u2029 \ufeff \ud800 👍🏽 é e\u0301 "\\ \r\n %00 __proto__'

const tell: Effect = { kind: 'tell', id: effectId('tell'), to: documentId('clinic'), told: { kind: 'odd', oddText, nothing: null, list: [1.5, -0.25, 1e21] } }

/** One of each, full of what a document may hold, by id. */
const samples: readonly DocumentCopy[] = [
  sample('Chart-1', 'chart', { seen: Array.from({ length: 200 }, (_, index) => eventId(`event-${index}`)) }),
  sample('chart-1', 'chart', {
    entries: Array.from({ length: 90 }, (_, index) => makeEntry(`e-${index}`, { bulk: 'x'.repeat(1_000), index })),
    owed: [
      { effect: makeSend('first'), attempts: 3 },
      { effect: tell, attempts: 0 },
    ],
    refs: [{ effect: effectId('gone'), ref: '4711' }],
  }),
  sample('clinic', 'clinic', {}),
  sample('desk-é', 'desk', { entries: [makeEntry('odd', { oddText, 'key "odd"': oddText })], seen: [eventId('an odd id: \u2028 👍🏽 "\\ %00')] }),
]

function sample(name: string, kind: DocumentKind, changes: Partial<DocumentCopy>): DocumentCopy {
  const id = documentId(name)
  const head = makeHead(id, { kind, name: `Zoë ${oddText}`, contacts: [{ channel: 'browser', address: name }], nextDueAt: 7, openAlerts: 2 })
  return { document: { ...makeTally(id, 3, kind), note: oddText } as Tally, head, seen: [], owed: [], refs: [], entries: [], ...changes }
}

/** What every archive promises, whatever keeps it. Not for others: documents are of the samples' shape. */
export function describeArchive(name: string, make: () => Promise<ArchiveUnderTest>): void {
  describe(`the ${name} archive`, () => {
    let under: ArchiveUnderTest

    beforeEach(async () => {
      under = await make()
    })
    afterEach(() => under.dispose())

    it('holds nothing before anything was put in', async () => {
      expect(await allOf(under.archive)).toEqual([])
    })

    it('gives every copy back as it was put in, by id, whatever the order', async () => {
      for (const copy of [2, 0, 3, 1].map((index) => samples[index]!)) await under.archive.copyIn(copy)

      expect(await allOf(under.archive)).toEqual(samples)
      await under.reopen()
      expect(await allOf(under.archive)).toEqual(samples)
    })

    it('puts in what a store then goes on with', async () => {
      for (const copy of samples) await under.archive.copyIn(copy)
      const store = await under.reopen()
      const chart = documentId('chart-1')
      const [large] = samples.filter(({ document }) => document.id === chart)

      expect(await store.entries(chart)).toEqual(large!.entries)
      expect(await store.owed(chart)).toEqual(large!.owed.map((owed) => ({ document: chart, ...owed })))
      expect(await store.documentsOwing()).toEqual([chart])
      expect(await store.refOf(chart, effectId('gone'))).toBe('4711')
      expect((await store.due(7)).map((head) => head.id)).toEqual(samples.map(({ document }) => document.id))
      expect((await store.findByContact({ channel: 'browser', address: 'Chart-1' }))?.id).toBe('Chart-1')
      const repeat = await store.apply(documentId('Chart-1'), eventId('event-0'), () => {
        throw new Error('an event seen before is decided again')
      })
      expect(repeat.applied).toBe(false)
      await store.apply(chart, eventId('new'), countUp(chart, { entries: [makeEntry('new')] }))
      expect((await store.entries(chart)).map((entry) => entry.id)).toEqual([...large!.entries.map((entry) => entry.id), 'new'])
      expect(await store.read(chart)).toEqual(makeTally(chart, 4))
    })

    it('gives out what a store has committed, closed entries before open ones', async () => {
      const id = documentId('chart-1')
      for (const index of [0, 1, 2, 3, 4]) {
        const changes = { entries: [makeEntry(`${index}`)], effects: index < 2 ? [makeSend(`s-${index}`)] : [], closesVolume: index === 1 || index === 2 }
        await under.store.apply(id, eventId(`${index}`), countUp(id, changes))
      }
      await under.store.settle(id, effectId('s-0'), { kind: 'delivered', ref: 'r' })
      await under.store.settle(id, effectId('s-1'), { kind: 'tried' })
      await under.reopen()

      expect(await allOf(under.archive)).toEqual([
        {
          document: makeTally(id, 5),
          head: makeHead(id),
          seen: ['0', '1', '2', '3', '4'],
          owed: [{ effect: makeSend('s-1'), attempts: 1 }],
          refs: [{ effect: 's-0', ref: 'r' }],
          entries: ['0', '1', '2', '3', '4'].map((text) => makeEntry(text)),
        },
      ])
    })

    it('gives into another place what that gives out again', async () => {
      for (const copy of samples) await under.archive.copyIn(copy)
      const other = await under.another()

      for await (const copy of under.archive.copyOut()) await other.archive.copyIn(copy)

      expect(await allOf(other.archive)).toEqual(samples)
      expect(await allOf(under.archive)).toEqual(samples)
    })

    it('refuses an id that stands, and keeps what stood', async () => {
      const [copy] = samples
      await under.archive.copyIn(copy!)

      await expect(under.archive.copyIn({ ...copy!, entries: [makeEntry('other')] })).rejects.toMatchObject({ name: 'StoreError' })

      expect(await allOf(under.archive)).toEqual([copy])
    })

    it('throws on a copy whose parts are of different documents', async () => {
      const [copy, other] = samples
      await expect(under.archive.copyIn({ ...copy!, head: other!.head })).rejects.toBeInstanceOf(TypeError)
      expect(await allOf(under.archive)).toEqual([])
    })

    it('gives out one instant while others write', async () => {
      // A tell goes from the first to the second: in every instant it lies with one of them, or has been taken.
      const [from, to] = [documentId('a'), documentId('b')]
      const idle = Array.from({ length: 30 }, (_, index) => documentId(`idle-${index}`))
      for (const id of [from, to, ...idle]) await under.store.apply(id, eventId('0'), countUp(id))
      const state = { isWriting: true }
      const writing = (async () => {
        for (let round = 1; round <= 25; round += 1) {
          const effect: Effect = { kind: 'tell', id: effectId(`tell-${round}`), to, told: round }
          await under.store.apply(from, eventId(`send-${round}`), countUp(from, { effects: [effect] }))
          await under.store.apply(to, eventId(effect.id), countUp(to, { entries: [{ ...makeEntry(effect.id), id: brandAs<EntryId>(effect.id) }] }))
          await under.store.settle(from, effect.id, { kind: 'delivered', ref: null })
          await under.store.apply(from, eventId(`mark-${round}`), countUp(from))
          for (let pause = 0; pause < 5; pause += 1) await flush()
        }
      })().finally(() => {
        state.isWriting = false
      })

      const lost: string[] = []
      let copied = 0
      while (state.isWriting) {
        const copies = await allOf(under.archive)
        const [a, b] = [from, to].map((id) => copies.find(({ document }) => document.id === id)!)
        const taken = new Set(b!.entries.map((entry) => String(entry.id)))
        const onTheWay = new Set(a!.owed.map(({ effect }) => String(effect.id)))
        const sent = a!.seen.filter((event) => event.startsWith('send-')).map((event) => event.replace('send', 'tell'))
        lost.push(...sent.filter((one) => !taken.has(one) && !onTheWay.has(one)), ...[...taken].filter((one) => !sent.includes(one)))
        expect(copies.length).toBe(32)
        copied += 1
        await flush()
      }
      await writing

      expect(lost).toEqual([])
      expect(copied).toBeGreaterThan(0)
    }, 30_000)
  })
}
