import { StoreError } from '#src/ports/store.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'

/** Opens the embedded store in the given folder, prints what came of it and how long it took, and holds it until killed. */
const [folder = ''] = process.argv.slice(2)
const store = createLowdbStore({ folder })
const began = performance.now()
const outcome = await store.open().then(
  () => ({ code: 'open', message: '' }),
  (error: unknown) => {
    if (error instanceof StoreError) return { code: error.code, message: error.message }
    throw error
  },
)
console.log(JSON.stringify({ ...outcome, tookMs: performance.now() - began }))
if (outcome.code === 'open') process.stdin.resume()
