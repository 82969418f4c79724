// Data folders of any number of clients with one past.
import { linkSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { DocumentId } from '#src/domain/identifier.ts'
import { plain } from '#src/stores/cipher.ts'
import { documentFileName } from '#src/stores/document-file-name.ts'
import { envelopeFormat } from '#src/stores/envelope.ts'
import { sealText } from '#src/stores/lowdb/sealed-text.ts'
import { chartOf, chatOf } from './history.ts'
import { envelopeOf, type PastClient } from './past-client.ts'

export function makeFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'nuchal-bench-'))
  for (const name of ['documents', 'volumes', 'shared']) mkdirSync(join(folder, name))
  return folder
}

export function removeFolder(folder: string): void {
  rmSync(folder, { recursive: true, force: true })
}

export function documentPath(folder: string, id: DocumentId): string {
  return join(folder, 'documents', `${documentFileName(id)}.json`)
}

/**
 * Puts clients of those numbers into a folder. Their closed volumes are hard links to one client's: nothing here reads
 * them, but they stand where the store looks for them at its start.
 */
export function placeClients(folder: string, past: PastClient, numbers: readonly number[]): void {
  const shared = join(folder, 'shared', String(numbers[0]))
  mkdirSync(shared)
  past.volumes.forEach((entries, index) => {
    const volume = { format: envelopeFormat, id: chartOf(0), number: index + 1, entries }
    writeFileSync(join(shared, `${index + 1}.json`), sealText(volume, plain, 'bench'))
  })
  for (const number of numbers) {
    const id = chartOf(number)
    writeFileSync(documentPath(folder, id), sealText(envelopeOf(past, id, chatOf(number)), plain, 'bench'), { mode: 0o600 })
    const volumes = join(folder, 'volumes', documentFileName(id))
    if (past.volumes.length > 0) mkdirSync(volumes)
    past.volumes.forEach((_entries, index) => linkSync(join(shared, `${index + 1}.json`), join(volumes, `${index + 1}.json`)))
  }
}
