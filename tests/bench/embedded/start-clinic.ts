// A process of its own: opens the data folder given, starts the product over it and says what that took, as one JSON line.
import { createApp, productOf } from '#src/app.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { loadContent } from '#src/content/load-content.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { ManualClock } from '#tests/support/manual-clock.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'

const [folder = '', now = '0'] = process.argv.slice(2)
const product = productOf({ ...loadContent('content'), signature: { kind: 'demo' } })
const loadedMs = performance.now()
const [beforeStore, started] = [process.cpuUsage(), performance.now()]
const store = createLowdbStore({ folder, steps: documentMigrations })
await store.open()
const openMs = performance.now() - started
const clock = new ManualClock(Number(now))
const app = createApp({ product, store, channels: [], clock, log: new RecordingLog(), wait: clock.wait })
await app.start((error) => {
  throw error
})
const storeMs = performance.now() - started
const cpu = process.cpuUsage(beforeStore)
const charts = (await store.heads('chart')).length
const megabytes = process.resourceUsage().maxRSS / 1024
console.log(JSON.stringify({ charts, loadedMs, openMs, storeMs, wholeMs: performance.now(), cpuMs: (cpu.user + cpu.system) / 1000, megabytes }))
await app.stop()
await store.close()
