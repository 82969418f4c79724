// What stands in a database while a whole clinic is put into it: one half filled must not be taken for a clinic.
import { StoreError } from '#src/ports/store.ts'
import type { Run } from './connections.ts'

export async function isFilling(run: Run): Promise<boolean> {
  return (await run(`SELECT FROM nuchal.setting WHERE name = 'filling'`)).length > 0
}

/** Rejects `damaged` where a copy was put in only in part. */
export async function refuseFilling(run: Run): Promise<void> {
  if (!(await isFilling(run))) return
  const mend = 'Run the same "restore" or "migrate" again: it clears away what lies there and begins anew.'
  throw new StoreError('damaged', `The database holds a copy that was put in only in part. ${mend}`)
}

export async function markFilling(run: Run): Promise<void> {
  await run(`INSERT INTO nuchal.setting (name, value) VALUES ('filling', '') ON CONFLICT DO NOTHING`)
}

export async function unmarkFilling(run: Run): Promise<void> {
  await run(`DELETE FROM nuchal.setting WHERE name = 'filling'`)
}
