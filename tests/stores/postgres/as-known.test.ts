// Answers that are written without reading first, by what the process remembers of the row.
import pg from 'pg'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { createDice } from '#src/commands/rehearse/dice.ts'
import type { Commit } from '#src/ports/store.ts'
import type { PostgresStore } from '#src/stores/postgres/postgres-store.ts'
import { shareDatabase, until } from '#tests/support/shared-database.ts'
import { countUp, documentId, effectId, eventId, makeCommit, makeEntry, makeHead, makeSend, makeTally, type Tally } from '#tests/support/store-samples.ts'

const chart = documentId('chart-1')
const never = 3_600_000

/** Nothing is due, and marks are written by answers and at the close only, so that what is counted is the answer's own. */
const database = shareDatabase({ marksEveryMs: never })
const { open, sql } = database
afterEach(() => vi.restoreAllMocks())

const answer = (store: PostgresStore, event: string, change: Partial<Commit<Tally>> = {}) =>
  store.apply(chart, eventId(event), countUp(chart, { entries: [makeEntry(event)], ...change }))

/** The statements that `work` makes of documents, first words only. */
async function statementsOf(work: () => Promise<unknown>): Promise<readonly string[]> {
  const asked: string[] = []
  const query = pg.Client.prototype.query as (this: pg.Client, ...rest: unknown[]) => unknown
  const spy = vi.spyOn(pg.Client.prototype, 'query').mockImplementation(function (this: pg.Client, ...rest: unknown[]) {
    const [first] = rest as [string | { readonly text?: string }]
    const text = typeof first === 'string' ? first : (first.text ?? '')
    if (!/nuchal\.process|^SET /.test(text)) asked.push(text.trim().split(/\s+/)[0] ?? '')
    return query.apply(this, rest)
  } as never)
  await work()
  spy.mockRestore()
  return asked
}

describe('an answer after another of the same process', () => {
  it('is one statement, also when the earlier one’s messages have been sent meanwhile', async () => {
    const store = await open()
    await answer(store, '1', { effects: [makeSend('a')] })
    await store.settle(chart, effectId('a'), { kind: 'delivered', ref: 'ref-a' })
    const statements = await statementsOf(() => answer(store, '2', { effects: [makeSend('b')] }))

    expect(statements).toEqual(['WITH'])
    expect(await store.read(chart)).toEqual(makeTally(chart, 2))
    expect((await store.entries(chart)).map(({ id }) => id)).toEqual(['1', '2'])
    expect((await store.owed(chart)).map(({ effect }) => effect.id)).toEqual(['b'])
    expect(await store.refOf(chart, effectId('a'))).toBe('ref-a')
  })

  it('is one statement, also when its marks were written by themselves', async () => {
    const store = await open({ marksEveryMs: 1 })
    await answer(store, '1', { effects: [makeSend('a')] })
    await store.settle(chart, effectId('a'), { kind: 'delivered', ref: null })
    await until(async () => (await sql('SELECT owing FROM nuchal.document'))[0]?.['owing'] === 0)
    // The writer hears of it after the database has it.
    await store.settle(chart, effectId('none'), { kind: 'delivered', ref: null })
    await until(async () => (await statementsOf(() => answer(store, String(performance.now())))).length === 1)
  })

  it('is read first where its messages are still on their way', async () => {
    const store = await open()
    await answer(store, '1', { effects: [makeSend('a')] })
    const { owed } = await answer(store, '2', { effects: [makeSend('b')] })

    expect(owed.map(({ effect }) => effect.id)).toEqual(['a', 'b'])
  })

  it('brings its wake-up along, in one transaction', async () => {
    const store = await open()
    await answer(store, '1')
    const statements = await statementsOf(() => answer(store, '2', { head: makeHead(chart, { nextDueAt: Date.now() + never }) }))

    expect(statements.filter((word) => word === 'BEGIN' || word === 'COMMIT')).toEqual(['BEGIN', 'COMMIT'])
    expect(await sql(`SELECT count(*)::int AS jobs FROM nuchal_jobs.job WHERE name = 'wake-up'`)).toEqual([{ jobs: 1 }])
  })

  it('that is taken in again changes nothing and asks nobody', async () => {
    const store = await open()
    await answer(store, '1')
    await answer(store, '2')
    const again = await store.apply(chart, eventId('1'), () => {
      throw new Error('asked')
    })

    expect(again.applied).toBe(false)
    expect(await store.read(chart)).toEqual(makeTally(chart, 2))
  })

  it('is asked of a document once, also where there is nothing to commit', async () => {
    const store = await open()
    await answer(store, '1')
    const decide = vi.fn(() => null)
    await store.apply(chart, eventId('2'), decide)

    expect(decide).toHaveBeenCalledTimes(1)
  })

  it('moves a client to another contact', async () => {
    const store = await open()
    const headOf = (address: string) => makeHead(chart, { contacts: [{ channel: 'telegram', address }] })
    await answer(store, '1', { head: headOf('11') })
    await answer(store, '2', { head: headOf('12') })

    expect((await store.findByContact({ channel: 'telegram', address: '12' }))?.id).toBe(chart)
    expect(await store.findByContact({ channel: 'telegram', address: '11' })).toBeNull()
  })

  it('that is refused leaves nothing, and the next one is right', async () => {
    const store = await open()
    await answer(store, '1')
    await sql(`ALTER TABLE nuchal.entry ADD CONSTRAINT refused CHECK (body NOT LIKE '%refused%')`)
    await expect(answer(store, '2', { entries: [makeEntry('refused')] })).rejects.toMatchObject({ code: 'unavailable' })
    await answer(store, '3')

    expect(await store.read(chart)).toEqual(makeTally(chart, 2))
    expect((await store.entries(chart)).map(({ id }) => id)).toEqual(['1', '3'])
  })
})

describe('what is remembered', () => {
  it('is not believed where another process has answered', async () => {
    const [one, other] = [await open(), await open()]
    for (const [index, store] of [one, other, one, one, other, one].entries()) await answer(store, `${index}`)

    expect(await other.read(chart)).toEqual(makeTally(chart, 6))
    expect((await one.entries(chart)).map(({ id }) => id)).toEqual(['0', '1', '2', '3', '4', '5'])
  })

  it('does not apply twice what another process has taken in', async () => {
    const [one, other] = [await open(), await open()]
    await answer(one, '1')
    await answer(other, '2')
    const asked: (number | null)[] = []
    const again = await one.apply<Tally>(chart, eventId('2'), (tally) => {
      asked.push(tally?.count ?? null)
      return makeCommit(makeTally(chart, 100))
    })

    expect([again.applied, asked]).toEqual([false, [1]])
    expect(await one.read(chart)).toEqual(makeTally(chart, 2))
  })

  it('does not bring back a client who was erased by another', async () => {
    const [one, other] = [await open(), await open()]
    await answer(one, '1')
    await other.erase(chart)
    const found: unknown[] = []
    await one.apply(chart, eventId('2'), (tally) => {
      found.push(tally)
      return null
    })

    expect(found.at(-1)).toBeNull()
    expect(await one.read(chart)).toBeNull()
  })

  it('does not send what another process has taken over', async () => {
    const [one, other] = [await open(), await open()]
    await answer(one, '1', { effects: [makeSend('a')] })
    await sql(`UPDATE nuchal.process SET alive_until = now() - interval '1 minute' WHERE id = (SELECT sender FROM nuchal.document)`)
    expect((await other.claim()).map(({ effect }) => effect.id)).toEqual(['a'])
    await one.settle(chart, effectId('a'), { kind: 'delivered', ref: null })
    const { owed } = await answer(one, '2', { effects: [makeSend('b')] })

    expect(owed).toEqual([])
    expect((await one.owed(chart)).map(({ effect }) => effect.id)).toEqual(['b'])
  })
})

describe('three processes at once', () => {
  it.each([1, 2, 3])('lose and double nothing, however their answers, marks, looks and deaths come together (seed %i)', async (seed) => {
    const dice = createDice(seed)
    const processes = [await open({ marksEveryMs: 5 }), await open({ marksEveryMs: 5 }), await open({ marksEveryMs: 5 })]
    const charts = [1, 2, 3].map((number) => documentId(`chart-${number}`))
    const expected = new Map(charts.map((id) => [id, new Set<string>()]))
    const sent = new Set<string>()
    const any = <T>(list: readonly T[]): T => list[dice.roll(0, list.length - 1)]!
    const deliver = async (store: PostgresStore, owed: readonly { readonly document: typeof chart; readonly effect: { readonly id: ReturnType<typeof effectId> } }[]): Promise<void> => {
      for (const { document, effect } of owed) {
        if (dice.chance(20)) continue
        sent.add(`${document} ${effect.id}`)
        await store.settle(document, effect.id, { kind: 'delivered', ref: effect.id })
      }
    }
    const act = async (number: number): Promise<void> => {
      const [store, id, kind] = [any(processes), any(charts), dice.roll(0, 9)]
      if (kind === 0) return deliver(store, await store.claim())
      if (kind === 1) return deliver(store, await store.claim(id))
      if (kind === 2) return void (await sql(`UPDATE nuchal.process SET alive_until = now() - interval '1 minute' WHERE id = (SELECT sender FROM nuchal.document WHERE id = $1)`, [id]))
      // Each may come to several of them.
      const event = `${dice.roll(Math.max(0, number - 3), number)}`
      expected.get(id)?.add(event)
      const effects = dice.chance(70) ? [makeSend(`${id}-${event}`)] : []
      const { owed } = await store.apply(id, eventId(event), countUp(id, { entries: [makeEntry(event)], effects }))
      await deliver(store, owed)
    }
    for (let number = 0; number < 120; number += 4) await Promise.all([0, 1, 2, 3].map((more) => act(number + more)))
    for (const store of processes) await store.close()

    const last = await open()
    for (const id of charts) {
      const entries = (await last.entries(id)).map((entry) => entry.id as string)
      expect([...entries].sort()).toEqual([...(expected.get(id) ?? [])].sort())
      expect(await last.read(id)).toEqual(makeTally(id, entries.length))
      const rows = await sql('SELECT owing, (SELECT count(*)::int FROM nuchal.outbox WHERE document = d.id) AS standing, outbox_seq FROM nuchal.document d WHERE id = $1', [id])
      expect(rows[0]?.['owing']).toBe(rows[0]?.['standing'])
    }
    const standing = new Set((await last.claim()).map(({ document, effect }) => `${document} ${effect.id}`))
    const numbered = await sql('SELECT count(*)::int AS lost FROM nuchal.document d WHERE outbox_seq <> (SELECT count(*) FROM nuchal.sent s WHERE s.document = d.id) + owing')
    expect(numbered).toEqual([{ lost: 0 }])
    expect([...standing].filter((one) => sent.has(one))).toEqual([])
  })
})
