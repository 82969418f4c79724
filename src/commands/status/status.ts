// How a clinic stands, beside the process that runs it: what is stored is only read, and its lock is left alone.
import { shippedContent, systemClock } from '#src/app.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { readConfig } from '#src/config.ts'
import type { Clock } from '#src/ports/clock.ts'
import { cipherFor } from '#src/stores/cipher.ts'
import { readEnvelopes } from '#src/stores/lowdb/read-envelopes.ts'
import { readDocuments } from '#src/stores/postgres/read-documents.ts'
import { InputError } from '../input-error.ts'
import { readMovedClock } from '../start/demo-clock.ts'
import type { Surface } from '../surface.ts'
import { findStatus } from './find-status.ts'
import { printStatus, statusAsJson } from './print-status.ts'
import { readRunningState } from './running-state.ts'

/** Gives back the exit status: 1 where something needs a person. */
export async function status({ json }: { readonly json?: true }, { environment, print }: Surface): Promise<number> {
  const { databaseUrl, dataDir, dataKey, telegram } = readConfig(environment)
  const cipher = cipherFor(dataKey)
  const documents = databaseUrl === null ? await readEnvelopes(dataDir, documentMigrations, cipher) : await readDocuments(databaseUrl, documentMigrations, cipher)
  if (documents === null) throw new InputError(`Nothing is stored in ${databaseUrl === null ? 'DATA_DIR' : 'the database'} yet. Set ${databaseUrl === null ? 'DATA_DIR to the folder' : 'DATABASE_URL to the database'} of the clinic, or run start first.`)
  // A demo clinic lives in its own time.
  const clock: Clock = telegram === null ? readMovedClock(dataDir) : systemClock
  const { escalation } = shippedContent().triage
  const found = findStatus({ documents, running: await readRunningState(dataDir), escalation, at: clock.now(), machineAt: systemClock.now() })
  print(json ? statusAsJson(found) : printStatus(found))
  return found.needsPerson ? 1 : 0
}
