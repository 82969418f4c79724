import { expect, it } from 'vitest'
import { KeyedQueue } from '#src/delivery/keyed-queue.ts'
import { Turns } from '#src/delivery/turns.ts'
import { brandAs, type EffectId, type EventId } from '#src/domain/identifier.ts'
import type { Store } from '#src/ports/store.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { contact, createDiaryHandler, documentId, echo, type DiaryEvent } from '#tests/support/diary-handler.ts'
import { FragileDisk } from '#tests/support/fragile-disk.ts'
import { ManualClock } from '#tests/support/manual-clock.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'

const chart = documentId('chart-ada')
const said: DiaryEvent = { kind: 'said', id: brandAs<EventId>('u1'), from: contact('ada'), text: 'hello' }

/** Another process takes the event in after this one has decided on it. */
function overtaken(store: Store): Store {
  const apply: Store['apply'] = async (id, event, decide) => {
    decide(await store.read(id))
    await store.apply(id, event, decide)
    return { applied: false, owed: await store.owed(id) }
  }
  return Object.assign(Object.create(store) as Store, { apply, read: store.read.bind(store) })
}

it('what another process took in after we had decided was seen before, and what it owes may be sent already', async () => {
  const store = createMemoryStore(new FragileDisk())
  await store.open()
  const taken: (readonly [owed: number, added: ReadonlySet<EffectId>])[] = []
  const committed: string[] = []
  const turns = new Turns<DiaryEvent>({
    store: overtaken(store),
    clock: new ManualClock(0),
    handler: createDiaryHandler(echo),
    log: new RecordingLog(),
    documents: new KeyedQueue(),
    onParked: () => undefined,
    take: (owed, added) => taken.push([owed.length, added]),
    reply: () => undefined,
    committed: (document) => committed.push(document),
  })

  expect(await turns.run(chart, said)).toEqual({ kind: 'seen' })
  expect(taken).toEqual([[1, new Set()]])
  expect(committed).toEqual([])
})
