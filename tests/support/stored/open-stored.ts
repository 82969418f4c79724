// A stored case of any released version as the product of today finds it: with the clinic and the desks of its version, on
// a virtual clock that goes on from when it was stored.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import type { AnyDocument } from '#src/chart/head.ts'
import type { Conversation, Flows } from '#src/conversation/flow.ts'
import type { Entry } from '#src/domain/entry.ts'
import type { StoredRecord } from '#src/ports/migration.ts'
import { migrateDocument } from '#src/stores/migrations.ts'
import { ClinicRig } from '../clinic-rig.ts'
import { chartId, colleagues } from '../joined-clinic.ts'
import { storedFolder, type StoredFixture } from './stored-folder.ts'

/** An envelope as far as a test looks into it; the document is of whatever format it was stored in. */
export interface StoredEnvelope {
  readonly id: string
  readonly document: StoredRecord & { readonly conversations?: readonly Conversation[] }
  readonly head: unknown
  readonly entries: readonly Entry[]
  readonly volumes: number
  readonly owed: readonly { readonly effect: { readonly id: string } }[]
}

export function envelopesOf(folder: string): readonly StoredEnvelope[] {
  const documents = join(folder, 'documents')
  return readdirSync(documents).toSorted().map((name) => JSON.parse(readFileSync(join(documents, name), 'utf8')) as StoredEnvelope)
}

export function migrated(envelope: StoredEnvelope): AnyDocument {
  return migrateDocument(envelope.document, documentMigrations) as AnyDocument
}

/** What stands around the documents of a case: the clinic, its desks, and a client with whom nothing is open. */
export function surroundingsOf({ version }: StoredFixture): readonly string[] {
  return [join(storedFolder, version, 'clinic'), join(storedFolder, version, 'idle')]
}

/** Orla’s chart and her therapists’ desks, with what the case holds in place of them. */
export function rigOf(fixture: StoredFixture, flows?: Flows): ClinicRig {
  const rig = new ClinicRig(new Date(fixture.at).toISOString(), flows)
  const folders = [...surroundingsOf(fixture), fixture.folder]
  for (const folder of folders) for (const envelope of envelopesOf(folder)) rig.store(migrated(envelope))
  return rig
}

/** The case's own document. */
export function documentOf(fixture: StoredFixture): AnyDocument {
  const [envelope] = envelopesOf(fixture.folder)
  if (envelope === undefined) throw new Error(`${fixture.name} holds no document`)
  return migrated(envelope)
}

/** Who writes to that document. */
export function personOf(rig: ClinicRig, document: AnyDocument): ReturnType<ClinicRig['person']> {
  const contact = document.kind === 'clinic' ? null : document.contact
  return rig.person(contact?.address ?? (document.id === chartId ? 'orla' : colleagues.maren.name))
}
