// The file of a backup: gzip (RFC 1952), a JSON text a line. The first line says what it is, then come the clinic's files
// and its documents, and the last says how many there were. With a key every line but the first is sealed.
import { gunzipSync, gzipSync } from 'node:zlib'
import { z } from 'zod'
import type { DocumentCopy } from '#src/ports/archive.ts'
import { StoreError } from '#src/ports/store.ts'
import type { Cipher } from '#src/stores/cipher.ts'
import { clinicFileNames } from './clinic-file-names.ts'

export const backupFormat = 1

export const headerShape = z.object({
  kind: z.literal('nuchal-backup'),
  format: z.literal(backupFormat),
  /** Bound into every sealed line, so that no line of another backup is taken for one of this. */
  id: z.string().regex(/^[0-9a-f]{32}$/),
  /** ISO 8601, when the copy began. */
  writtenAt: z.iso.datetime(),
  documents: z.int().min(0),
  /** The newest shape that a document of it may have. */
  documentFormat: z.int().min(1),
  /** Which key sealed it; null where it is not encrypted. */
  keyId: z.string().nullable(),
})
export type BackupHeader = Readonly<z.infer<typeof headerShape>>

const end = z.object({ documents: z.int(), files: z.int(), entries: z.int(), sha256: z.string() })
export type BackupEnd = Readonly<z.infer<typeof end>>

/** A file of the clinic's that is no document, such as the signature of its triage content. */
const file = z.object({ name: z.enum(clinicFileNames), text: z.string() })
export type ClinicFile = Readonly<z.infer<typeof file>>

/** The line's one key says what it holds; a copy is checked by the stores' own rules. */
export const lineShape = z.union([z.strictObject({ file }), z.strictObject({ document: z.unknown() }), z.strictObject({ end })])
export type BackupLine = { readonly file: ClinicFile } | { readonly document: DocumentCopy } | { readonly end: BackupEnd }

/** The first line has one length, since the number of documents is known last: blanks after the JSON text. */
const headerLength = 400

/** A gzip member of its own, of one length for any header, without compression. */
export function encodeHeader(header: BackupHeader): Buffer {
  return gzipSync(`${headerText(header)}\n`, { level: 0 })
}

/** The first line without its end. */
export function headerText(header: BackupHeader): string {
  const text = JSON.stringify(header)
  if (text.length > headerLength) throw new RangeError('the first line of a backup is too long')
  return text.padEnd(headerLength)
}

/**
 * `number` counts from 1, the line after the first. What is sealed is the compressed text, since nothing sealed can be
 * compressed; its number is bound in, so that no line can be dropped, doubled or moved without being told.
 */
export function sealLine(cipher: Cipher, { id }: Pick<BackupHeader, 'id'>, number: number, text: string): string {
  return cipher.keyId === null ? text : cipher.seal(gzipSync(text).toString('base64'), placeOf(id, number))
}

export function unsealLine(cipher: Cipher, { id }: Pick<BackupHeader, 'id'>, number: number, line: string): string {
  return cipher.keyId === null ? line : gunzipSync(Buffer.from(cipher.unseal(line, placeOf(id, number)), 'base64')).toString('utf8')
}

function placeOf(id: string, number: number): string {
  return `backup:${id}:${number}`
}

export function describeDamagedBackup(path: string, what: string): StoreError {
  return new StoreError('damaged', `${path} is no whole backup: ${what}. Nothing was put in from it; take another one.`)
}
