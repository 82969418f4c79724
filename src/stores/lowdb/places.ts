import type { DocumentId } from '#src/domain/identifier.ts'

// What an encrypted file is bound to. Never changed: every file that is kept names its place by these.

export function documentPlace(id: DocumentId): string {
  return `document:${id}`
}

export function volumePlace(id: DocumentId, number: number): string {
  return `volume:${id}:${number}`
}
