import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Instant } from '#src/domain/identifier.ts'
import { StoreError, type Commit, type DocumentKind, type Head, type Store } from '#src/ports/store.ts'
import {
  countUp,
  documentId,
  effectId,
  eventId,
  makeCommit,
  makeEntry,
  makeHead,
  makeSend,
  makeTally,
} from '#tests/support/store-samples.ts'
import type { Tally } from '#tests/support/store-samples.ts'

/** What a store hands out may be frozen. */
function tryTo(change: () => unknown): void {
  try {
    change()
  } catch (error) {
    if (!(error instanceof TypeError)) throw error
  }
}

/** A store under test, opened, with what the suite must be able to do to it from outside. */
export interface StoreUnderTest {
  readonly store: Store
  /** Closes the last store and opens another instance on what it left. */
  reopen(): Promise<Store>
  /** Drops the last store as a crash would and opens another instance. */
  crash(): Promise<Store>
  /** Opens a second instance beside the open one. */
  openSecond(): Promise<Store>
  /** The next durable write fails as the system would with this code. */
  failNextWrite(code: 'ENOSPC' | 'EDQUOT' | 'EIO'): Promise<void> | void
  /** Several processes may have it open at once. */
  readonly isShared: boolean
  dispose(): Promise<void>
}

const chart = documentId('chart-1')

/** What every store promises, whatever keeps it. */
export function describeStore(name: string, make: () => Promise<StoreUnderTest>): void {
  describe(`the ${name} store`, () => {
    let under: StoreUnderTest
    let store: Store

    beforeEach(async () => {
      under = await make()
      store = under.store
    })
    afterEach(() => under.dispose())

    /** What holds must hold for the instance at hand, and for the next one on what it left. */
    async function* nowAndAfter(end: 'reopen' | 'crash'): AsyncGenerator<Store> {
      yield store
      yield await under[end]()
    }

    describe('apply', () => {
      it('hands null to the first decision and the committed document to the next', async () => {
        const shown: (Tally | null)[] = []
        const decide = (document: Tally | null): Commit<Tally> => {
          shown.push(document)
          return countUp(chart)(document)
        }

        const results = [await store.apply(chart, eventId('1'), decide), await store.apply(chart, eventId('2'), decide)]

        expect(shown).toEqual([null, makeTally(chart, 1)])
        expect(results).toEqual([{ applied: true, owed: [] }, { applied: true, owed: [] }])
        expect(await store.read(chart)).toEqual(makeTally(chart, 2))
      })

      it('reads null where no document is', async () => {
        expect(await store.read(chart)).toBeNull()
        expect(await store.entries(chart)).toEqual([])
        expect(await store.owed(chart)).toEqual([])
      })

      it('changes nothing for an event seen before, and still tells what is owed', async () => {
        const effects = [makeSend('hello')]
        await store.apply(chart, eventId('1'), countUp(chart, { effects }))

        const again = await store.apply(chart, eventId('1'), neverAsked)

        expect(again).toEqual({ applied: false, owed: [{ document: chart, effect: effects[0], attempts: 0 }] })
        expect(await store.read(chart)).toEqual(makeTally(chart, 1))
      })

      it('decides once when an event comes ten times at once', async () => {
        let decisions = 0
        const decide = (document: Tally | null): Commit<Tally> => {
          decisions += 1
          return countUp(chart, { entries: [makeEntry('e')] })(document)
        }

        const results = await Promise.all(Array.from({ length: 10 }, () => store.apply(chart, eventId('1'), decide)))

        expect(decisions).toBe(1)
        expect(results.map((result) => result.applied)).toEqual([true, ...Array<boolean>(9).fill(false)])
        expect(await store.entries(chart)).toEqual([makeEntry('e')])
      })

      it('remembers an event for each document by itself', async () => {
        const other = documentId('chart-2')
        await store.apply(chart, eventId('1'), countUp(chart))

        expect(await store.apply(other, eventId('1'), countUp(other))).toEqual({ applied: true, owed: [] })
      })

      it('remembers the last 200 events, in whatever order their numbers run, and forgets the one before', async () => {
        const ids = Array.from({ length: 201 }, (_, index) => eventId(String(1000 - index)))
        for (const id of ids) await store.apply(chart, id, countUp(chart))
        const next = await under.reopen()

        const repeats: boolean[] = []
        for (const id of [ids[200], ids[1]]) repeats.push((await next.apply(chart, id!, countUp(chart))).applied)
        const forgotten = await next.apply(chart, ids[0]!, countUp(chart))

        expect(repeats).toEqual([false, false])
        expect(forgotten).toEqual({ applied: true, owed: [] })
        expect(await next.read(chart)).toEqual(makeTally(chart, 202))
      }, 30_000)


      it('commits nothing on a null decision and does not remember the event', async () => {
        const refused = await store.apply(chart, eventId('1'), () => null)
        const nothing = await store.read(chart)
        const taken = await store.apply(chart, eventId('1'), countUp(chart))

        expect(refused).toEqual({ applied: false, owed: [] })
        expect(nothing).toBeNull()
        expect(taken).toEqual({ applied: true, owed: [] })
      })

      it('applies events of one document in call order', async () => {
        const names = Array.from({ length: 30 }, (_, index) => `event-${index}`)

        await Promise.all(
          names.map((name) => store.apply(chart, eventId(name), countUp(chart, { entries: [makeEntry(name)] }))),
        )

        expect((await store.entries(chart)).map((entry) => entry.id)).toEqual(names)
        expect(await store.read(chart)).toEqual(makeTally(chart, 30))
      })

      it('passes on what a decision throws, changes nothing and goes on', async () => {
        await store.apply(chart, eventId('1'), countUp(chart))
        const mistake = new Error('a mistake')

        const thrown = store.apply(chart, eventId('2'), () => {
          throw mistake
        })

        await expect(thrown).rejects.toBe(mistake)
        expect(await store.read(chart)).toEqual(makeTally(chart, 1))
        expect((await store.apply(chart, eventId('2'), countUp(chart))).applied).toBe(true)
      })

      it('is not reached by later changes to what was handed in or out', async () => {
        const note = { text: 'before' }
        const document = { ...makeTally(chart, 1), note: 'before', inner: note }
        await store.apply(chart, eventId('1'), () => makeCommit(document, { entries: [makeEntry('e', { inner: note })] }))
        note.text = 'after'
        const read = (await store.read(chart)) as unknown as { inner: { text: string } }
        tryTo(() => (read.inner.text = 'after'))
        const entries = await store.entries(chart)
        tryTo(() => ((entries[0]!.data as { inner: { text: string } }).inner.text = 'after'))

        expect(await store.read(chart)).toEqual({ ...document, inner: { text: 'before' } })
        expect(await store.entries(chart)).toEqual([makeEntry('e', { inner: { text: 'before' } })])
      })

      it('keeps values as JSON keeps them, at once and not only after a restart', async () => {
        const odd = { when: new Date(0), missing: undefined, not: Number.NaN, text: 'Zoë 😀 \u2028 \ud800' }
        await store.apply(chart, eventId('1'), () => makeCommit({ ...makeTally(chart, 1), ...odd } as Tally))
        const kept = { ...makeTally(chart, 1), when: '1970-01-01T00:00:00.000Z', not: null, text: odd.text }

        expect(await store.read(chart)).toStrictEqual(kept)
        expect(await (await under.reopen()).read(chart)).toStrictEqual(kept)
      })

      const strangers: readonly (readonly [string, Commit<Tally>])[] = [
        ['the document of another id', makeCommit(makeTally(documentId('chart-2'), 1))],
        ['the head of another id', makeCommit(makeTally(chart, 1), { head: makeHead(documentId('chart-2')) })],
        ['the head of another kind', makeCommit(makeTally(chart, 1), { head: makeHead(chart, { kind: 'desk' }) })],
        ['another kind than before', makeCommit(makeTally(chart, 1, 'desk'))],
        ['a format this version does not write', makeCommit({ ...makeTally(chart, 1), format: 2 })],
      ]
      it.each(strangers)('throws on a commit with %s and keeps what was', async (_, commit) => {
        await store.apply(chart, eventId('1'), countUp(chart))

        await expect(store.apply(chart, eventId('2'), () => commit)).rejects.toBeInstanceOf(TypeError)

        expect(await (await under.reopen()).read(chart)).toEqual(makeTally(chart, 1))
      })

      it.each(['', '\ud800', 'x'.repeat(201)])('throws on an id that nothing can be named after (case %#)', async (text) => {
        const id = documentId(text)
        await expect(store.apply(id, eventId('1'), countUp(id))).rejects.toBeInstanceOf(RangeError)
      })

      it('tells ids apart that differ in case, blanks, slashes or dots alone', async () => {
        const ids = ['a', 'A', 'a ', '.a', '..', 'a/b', 'a%2Fb', 'a:b', 'ä', 'lock.json'].map(documentId)
        for (const [index, id] of ids.entries()) await store.apply(id, eventId('1'), () => makeCommit(makeTally(id, index)))
        const next = await under.reopen()

        const read = await Promise.all(ids.map((id) => next.read<Tally>(id)))

        expect(read).toEqual(ids.map((id, index) => makeTally(id, index)))
        expect(new Set((await next.heads()).map((head) => head.id))).toEqual(new Set(ids))
      })
    })

    describe('a failing write', () => {
      const codes = [
        ['ENOSPC', 'full'],
        ['EDQUOT', 'full'],
        ['EIO', 'unavailable'],
      ] as const
      it.each(codes)('rejects %s as %s and leaves everything as it was', async (system, code) => {
        const before = { entries: [makeEntry('kept')], effects: [makeSend('kept')], head: makeHead(chart, { nextDueAt: 5 }) }
        await store.apply(chart, eventId('1'), countUp(chart, before))
        const lost = { entries: [makeEntry('lost')], effects: [makeSend('lost')], head: makeHead(chart, { nextDueAt: 9 }) }
        await under.failNextWrite(system)

        const failing = store.apply(chart, eventId('2'), countUp(chart, lost))

        await expect(failing).rejects.toMatchObject({ name: 'StoreError', code })
        for await (const one of nowAndAfter('crash')) {
          expect(await one.read(chart)).toEqual(makeTally(chart, 1))
          expect(await one.entries(chart)).toEqual([makeEntry('kept')])
          expect(await one.owed(chart)).toEqual([{ document: chart, effect: makeSend('kept'), attempts: 0 }])
          expect(await one.nextDueAt()).toBe(5)
        }
      })

      it('is made good by the same event coming again', async () => {
        await under.failNextWrite('ENOSPC')
        const first = store.apply(chart, eventId('1'), countUp(chart))
        const second = store.apply(chart, eventId('1'), countUp(chart))

        await expect(first).rejects.toMatchObject({ code: 'full' })
        expect(await second).toEqual({ applied: true, owed: [] })
        expect(await (await under.reopen()).read(chart)).toEqual(makeTally(chart, 1))
      })

      it('at the closing of a volume loses no entry and writes none twice', async () => {
        await store.apply(chart, eventId('1'), countUp(chart, { entries: [makeEntry('a')] }))
        const closing = countUp(chart, { entries: [makeEntry('b')], closesVolume: true })
        await under.failNextWrite('EIO')
        await expect(store.apply(chart, eventId('2'), closing)).rejects.toMatchObject({ code: 'unavailable' })

        await store.apply(chart, eventId('2'), closing)

        expect(await (await under.reopen()).entries(chart)).toEqual([makeEntry('a'), makeEntry('b')])
      })

      it('keeps delivered marks that were to ride on it', async () => {
        await store.apply(chart, eventId('1'), countUp(chart, { effects: [makeSend('a'), makeSend('b')] }))
        await store.settle(chart, effectId('a'), { kind: 'delivered', ref: 'r' })
        await under.failNextWrite('EIO')
        await expect(store.apply(chart, eventId('2'), countUp(chart))).rejects.toMatchObject({ code: 'unavailable' })

        const next = await under.reopen()

        expect(await next.owed(chart)).toEqual([{ document: chart, effect: makeSend('b'), attempts: 0 }])
        expect(await next.refOf(chart, effectId('a'))).toBe('r')
      })
    })

    describe('what is owed', () => {
      it('is told oldest first, by the commit and afterwards', async () => {
        await store.apply(chart, eventId('1'), countUp(chart, { effects: [makeSend('a'), makeSend('b')] }))
        const result = await store.apply(chart, eventId('2'), countUp(chart, { effects: [makeSend('c')] }))
        const expected = ['a', 'b', 'c'].map((text) => ({ document: chart, effect: makeSend(text), attempts: 0 }))

        expect(result).toEqual({ applied: true, owed: expected })
        expect(await store.owed(chart)).toEqual(expected)
        expect(await (await under.reopen()).owed(chart)).toEqual(expected)
      })

      it('ends with a delivery or by being given up, counts a try in vain, and bears a mark twice', async () => {
        await store.apply(chart, eventId('1'), countUp(chart, { effects: ['a', 'b', 'c'].map(makeSend) }))

        await store.settle(chart, effectId('a'), { kind: 'delivered', ref: 'first' })
        await store.settle(chart, effectId('a'), { kind: 'delivered', ref: 'second' })
        await store.settle(chart, effectId('b'), { kind: 'abandoned' })
        await store.settle(chart, effectId('c'), { kind: 'tried' })
        await store.settle(chart, effectId('c'), { kind: 'tried' })
        await store.settle(chart, effectId('unknown'), { kind: 'delivered', ref: 'x' })
        await store.settle(documentId('nobody'), effectId('a'), { kind: 'delivered', ref: 'x' })

        for await (const one of nowAndAfter('reopen')) {
          expect(await one.owed(chart)).toEqual([{ document: chart, effect: makeSend('c'), attempts: 2 }])
          expect(await one.refOf(chart, effectId('a'))).toBe('first')
          expect(await one.refOf(chart, effectId('b'))).toBeNull()
          expect(await one.refOf(chart, effectId('unknown'))).toBeNull()
          expect(await one.read(documentId('nobody'))).toBeNull()
        }
      })

      it('has its marks durable with the next commit, a crash afterwards included', async () => {
        await store.apply(chart, eventId('1'), countUp(chart, { effects: [makeSend('a')] }))
        await store.settle(chart, effectId('a'), { kind: 'delivered', ref: 'r' })
        await store.apply(chart, eventId('2'), countUp(chart, { effects: [makeSend('b')] }))

        for await (const one of nowAndAfter('crash')) {
          expect(await one.owed(chart)).toEqual([{ document: chart, effect: makeSend('b'), attempts: 0 }])
          expect(await one.refOf(chart, effectId('a'))).toBe('r')
        }
      })

      it('is owed again after a crash before that', async () => {
        await store.apply(chart, eventId('1'), countUp(chart, { effects: [makeSend('a')] }))
        await store.settle(chart, effectId('a'), { kind: 'abandoned' })

        const next = await under.crash()

        expect(await next.owed(chart)).toEqual([{ document: chart, effect: makeSend('a'), attempts: 0 }])
        expect(await next.documentsOwing()).toEqual([chart])
      })

      it('lists the documents that owe something', async () => {
        const [b, a, quiet] = ['b', 'a', 'quiet'].map(documentId)
        for (const id of [b!, a!]) await store.apply(id, eventId('1'), countUp(id, { effects: [makeSend('x')] }))
        await store.apply(quiet!, eventId('1'), countUp(quiet!))
        const atFirst = await store.documentsOwing()
        await store.settle(b!, effectId('x'), { kind: 'delivered', ref: null })

        expect(atFirst).toEqual([a, b])
        expect(await store.documentsOwing()).toEqual([a])
        expect(await (await under.reopen()).documentsOwing()).toEqual([a])
      })

      it('keeps the network names of the last 50 sends', async () => {
        const names = Array.from({ length: 51 }, (_, index) => `send-${index}`)
        await store.apply(chart, eventId('1'), countUp(chart, { effects: names.map(makeSend) }))
        for (const name of names) await store.settle(chart, effectId(name), { kind: 'delivered', ref: `ref-${name}` })
        const next = await under.reopen()

        const refs = await Promise.all(names.map((name) => next.refOf(chart, effectId(name))))

        expect(refs).toEqual([null, ...names.slice(1).map((name) => `ref-${name}`)])
      })
    })

    describe('heads', () => {
      const put = (id: string, kind: DocumentKind, changes: Partial<Head>, event = '1') =>
        store.apply(documentId(id), eventId(event), () =>
          makeCommit(makeTally(documentId(id), 1, kind), { head: makeHead(documentId(id), { kind, ...changes }) }),
        )
      const here = { channel: 'browser', address: 'x' }

      it('are as the last commit made them, listed by id and by kind', async () => {
        const full: Partial<Head> = { name: 'Zoë', contacts: [here], nextDueAt: 7, openAlerts: 2, isLocked: true }
        await put('b', 'chart', { name: 'old', contacts: [here] })
        await put('b', 'chart', { ...full, approvalsWaiting: 1, lastSessionAt: 3 }, '2')
        await put('a', 'desk', {})
        const b = makeHead(documentId('b'), { ...full, approvalsWaiting: 1, lastSessionAt: 3 })
        const a = makeHead(documentId('a'), { kind: 'desk' })

        for await (const one of nowAndAfter('reopen')) {
          expect(await one.heads()).toEqual([a, b])
          expect(await one.heads('chart')).toEqual([b])
          expect(await one.heads('clinic')).toEqual([])
        }
      })

      it('lead from a contact to its desk or chart, by network and address', async () => {
        await put('clinic', 'clinic', { contacts: [here] })
        await put('chart', 'chart', { contacts: [here, { channel: 'browser', address: 'y' }] })

        const found = await Promise.all(
          [here, { channel: 'telegram', address: 'x' }, { channel: 'browser', address: 'y' }].map((contact) =>
            store.findByContact(contact),
          ),
        )

        expect(found.map((head) => head?.id ?? null)).toEqual(['chart', null, 'chart'])
      })

      it('follow a contact that moves', async () => {
        await put('chart', 'chart', { contacts: [here] })
        await put('chart', 'chart', { contacts: [{ channel: 'browser', address: 'new' }] }, '2')

        for await (const one of nowAndAfter('reopen')) {
          expect(await one.findByContact(here)).toBeNull()
          expect((await one.findByContact({ channel: 'browser', address: 'new' }))?.id).toBe('chart')
        }
      })

      it('give a contact that several claim to a desk first, then to the lowest id', async () => {
        for (const [id, kind] of [['d', 'chart'], ['c', 'chart'], ['f', 'desk'], ['e', 'desk']] as const) {
          await put(id, kind, { contacts: [here] })
        }
        const first = await store.findByContact(here)
        await put('e', 'desk', { contacts: [] }, '2')
        await put('f', 'desk', { contacts: [] }, '2')

        expect(first?.id).toBe('e')
        expect((await store.findByContact(here))?.id).toBe('c')
        expect((await (await under.reopen()).findByContact(here))?.id).toBe('c')
      })

      it('tell what is due, earliest first, the instant itself included, ties by id', async () => {
        const dueAt: Record<string, Instant | null> = { e: 30, d: 10, c: 20, b: 20, a: 31, never: null, zero: 0 }
        for (const [id, nextDueAt] of Object.entries(dueAt)) await put(id, 'chart', { nextDueAt })

        for await (const one of nowAndAfter('reopen')) {
          expect((await one.due(30)).map((head) => head.id)).toEqual(['zero', 'd', 'b', 'c', 'e'])
          expect(await one.due(-1)).toEqual([])
          expect((await one.due(31)).length).toBe(6)
          expect(await one.nextDueAt()).toBe(0)
        }
      })

      it('forget a due instant that a commit has moved or taken away', async () => {
        await put('a', 'chart', { nextDueAt: 10 })
        await put('b', 'chart', { nextDueAt: 20 })
        await put('a', 'chart', { nextDueAt: 30 }, '2')
        const moved = (await store.due(30)).map((head) => [head.id, head.nextDueAt])
        await put('a', 'chart', { nextDueAt: null }, '3')
        await put('b', 'chart', { nextDueAt: null }, '2')

        expect(moved).toEqual([['b', 20], ['a', 30]])
        expect(await store.due(99)).toEqual([])
        expect(await store.nextDueAt()).toBeNull()
      })
    })

    describe('the record', () => {
      it('is whole and in order across volumes, open entries and restarts', async () => {
        const closing = new Set([2, 5, 6])
        let one = store
        for (let index = 0; index < 9; index += 1) {
          if (index === 4) one = await under.reopen()
          const entries = [makeEntry(`${index}-a`, { index }), makeEntry(`${index}-b`)]
          await one.apply(chart, eventId(`${index}`), countUp(chart, { entries, closesVolume: closing.has(index) }))
        }
        const expected = Array.from({ length: 9 }, (_, index) => [
          makeEntry(`${index}-a`, { index }),
          makeEntry(`${index}-b`),
        ]).flat()

        expect(await one.entries(chart)).toEqual(expected)
        expect(await (await under.crash()).entries(chart)).toEqual(expected)
      })

      it('is whole when entries are larger than 64 kB and no session closes', async () => {
        const large = 'ü'.repeat(20_000)
        const entries = Array.from({ length: 5 }, (_, index) => makeEntry(`${index}`, { large }))
        for (const entry of entries) await store.apply(chart, eventId(entry.id), countUp(chart, { entries: [entry] }))

        expect(await (await under.crash()).entries(chart)).toEqual(entries)
      })
    })

    describe('opening and closing', () => {
      it('lets a second instance read all that the first wrote', async () => {
        await store.apply(chart, eventId('1'), countUp(chart, { entries: [makeEntry('e')], effects: [makeSend('s')] }))
        const next = await under.reopen()

        expect(await next.read(chart)).toEqual(makeTally(chart, 1))
        expect(await next.entries(chart)).toEqual([makeEntry('e')])
        expect(await next.owed(chart)).toEqual([{ document: chart, effect: makeSend('s'), attempts: 0 }])
        expect((await next.apply(chart, eventId('1'), neverAsked)).applied).toBe(false)
      })

      it('refuses a second instance beside the open one, unless the store is made for several', async () => {
        const outcome = await under.openSecond().then(
          () => 'open',
          (error: unknown) => (error instanceof StoreError ? error.code : error),
        )
        expect(outcome).toBe(under.isShared ? 'open' : 'locked')
        expect((await store.apply(chart, eventId('1'), countUp(chart))).applied).toBe(true)
      })

      it('finishes what was begun before it closes, and refuses what comes after', async () => {
        const begun = Array.from({ length: 5 }, (_, index) => store.apply(chart, eventId(`${index}`), countUp(chart)))
        const closing = store.close()
        const late = store.apply(chart, eventId('late'), countUp(chart))

        await expect(late).rejects.toMatchObject({ name: 'StoreError', code: 'unavailable' })
        expect((await Promise.all(begun)).map((result) => result.applied)).toEqual(Array<boolean>(5).fill(true))
        await closing
        await store.close()
        await expect(store.heads()).rejects.toMatchObject({ code: 'unavailable' })
        expect(await (await under.reopen()).read(chart)).toEqual(makeTally(chart, 5))
      })
    })

    describe('erasure', () => {
      it('leaves nothing of a document and all of the others', async () => {
        const other = documentId('chart-2')
        for (const id of [chart, other]) {
          const head = makeHead(id, { contacts: [{ channel: 'browser', address: id }], nextDueAt: 5 })
          const changes = { head, entries: [makeEntry('e')], effects: [makeSend('s'), makeSend('t')] }
          await store.apply(id, eventId('1'), countUp(id, { ...changes, closesVolume: true }))
          await store.apply(id, eventId('2'), countUp(id, { head, entries: [makeEntry('f')] }))
          await store.settle(id, effectId('s'), { kind: 'delivered', ref: 'r' })
        }

        await store.erase(chart)
        await store.erase(chart)

        for await (const one of nowAndAfter('reopen')) {
          expect(await one.read(chart)).toBeNull()
          expect(await one.entries(chart)).toEqual([])
          expect(await one.owed(chart)).toEqual([])
          expect(await one.refOf(chart, effectId('s'))).toBeNull()
          expect(await one.findByContact({ channel: 'browser', address: chart })).toBeNull()
          expect((await one.heads()).map((head) => head.id)).toEqual([other])
          expect((await one.due(5)).map((head) => head.id)).toEqual([other])
          expect(await one.documentsOwing()).toEqual([other])
          expect(await one.entries(other)).toEqual([makeEntry('e'), makeEntry('f')])
          expect(await one.refOf(other, effectId('s'))).toBe('r')
        }
      })

      it('waits for its turn, and the document may begin anew after it', async () => {
        const first = store.apply(chart, eventId('1'), countUp(chart, { entries: [makeEntry('old')], closesVolume: true }))
        const erased = store.erase(chart)
        const second = store.apply(chart, eventId('1'), countUp(chart, { entries: [makeEntry('new')] }))
        await Promise.all([first, erased, second])

        expect(await store.read(chart)).toEqual(makeTally(chart, 1))
        expect(await (await under.reopen()).entries(chart)).toEqual([makeEntry('new')])
      })
    })

    it('agrees with a plain model over any sequence of events, marks, restarts and crashes', async () => {
      const act = fc.oneof(
        fc.record({ kind: fc.constant('apply' as const), event: fc.nat(12), sends: fc.nat(2), closes: fc.boolean() }),
        fc.record({ kind: fc.constant('settle' as const), effect: fc.nat(20) }),
        fc.record({ kind: fc.constantFrom('reopen' as const, 'crash' as const) }),
      )
      await fc.assert(
        fc.asyncProperty(fc.array(act, { maxLength: 25 }), async (acts) => {
          const fresh = await make()
          try {
            await followModel(fresh, acts)
          } finally {
            await fresh.dispose()
          }
        }),
        { numRuns: 25, seed: modelSeed },
      )
    }, 60_000)
  })
}

/** Printed by fast-check with the counterexample; fixed so that a failure repeats. */
const modelSeed = 20_260_101

type Act =
  | { readonly kind: 'apply'; readonly event: number; readonly sends: number; readonly closes: boolean }
  | { readonly kind: 'settle'; readonly effect: number }
  | { readonly kind: 'reopen' | 'crash' }

interface Model {
  readonly events: readonly number[]
  readonly owed: readonly string[]
  readonly lasting: readonly string[]
}

/** The model: a list of events and two lists of debts, as they stand and as they would stand after a crash. */
async function followModel(under: StoreUnderTest, acts: readonly Act[]): Promise<void> {
  let store = under.store
  let model: Model = { events: [], owed: [], lasting: [] }
  for (const act of acts) {
    if (act.kind === 'apply') {
      const sends = Array.from({ length: act.sends }, (_, index) => `${act.event}-${index}`)
      const changes = { effects: sends.map(makeSend), entries: [makeEntry(`${act.event}`)], closesVolume: act.closes }
      const { applied } = await store.apply(chart, eventId(`${act.event}`), countUp(chart, changes))
      expect(applied).toBe(!model.events.includes(act.event))
      const owed = [...model.owed, ...sends]
      if (applied) model = { events: [...model.events, act.event], owed, lasting: owed }
    } else if (act.kind === 'settle') {
      const name = `${act.effect >> 1}-${act.effect & 1}`
      await store.settle(chart, effectId(name), { kind: 'delivered', ref: null })
      model = { ...model, owed: model.owed.filter((owed) => owed !== name) }
    } else {
      store = await under[act.kind]()
      const owed = act.kind === 'crash' ? model.lasting : model.owed
      model = { ...model, owed, lasting: owed }
    }
    expect((await store.entries(chart)).map((entry) => Number(entry.id))).toEqual(model.events)
    expect((await store.owed(chart)).map((owed) => owed.effect.id)).toEqual(model.owed)
    expect((await store.read<Tally>(chart))?.count ?? 0).toBe(model.events.length)
  }
}

function neverAsked(): never {
  throw new Error('an event seen before is decided again')
}
