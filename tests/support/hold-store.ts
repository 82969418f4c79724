import { StoreError } from '#src/ports/store.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'

/** Opens the embedded store in the given folder, prints what came of it and how long that took, and holds it until ended. */
const [folder = ''] = process.argv.slice(2)
const store = createLowdbStore({ folder })
const began = performance.now()
const outcome = await store.open().then(
  () => ({ code: 'open', message: '' }),
  (error: unknown) => (error instanceof StoreError ? { code: error.code, message: error.message } : { code: 'other', message: '' }),
)
console.log(JSON.stringify({ ...outcome, tookMs: performance.now() - began }))
if (outcome.code === 'open') process.stdin.resume()
