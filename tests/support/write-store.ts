import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { countUp, documentId, eventId, makeEntry, makeHead, makeSend } from './store-samples.ts'
import type { Tally } from './store-samples.ts'

/** Counts up in one document as fast as it can and prints each count once it is durable, until it is killed. */
const [folder = ''] = process.argv.slice(2)
const id = documentId('chart-1')
const store = createLowdbStore({ folder })
await store.open()

const bulk = 'x'.repeat(2_000)
for (let count = ((await store.read<Tally>(id))?.count ?? 0) + 1; ; count += 1) {
  const entries = [makeEntry(`${count}`, { bulk })]
  const effects = [makeSend(`${count}`)]
  const head = makeHead(id, { nextDueAt: count })
  await store.apply(id, eventId(`${count}`), countUp(id, { entries, effects, head, closesVolume: count % 7 === 0 }))
  await store.settle(id, effects[0]!.id, { kind: 'delivered', ref: `${count}` })
  console.log(count)
}
