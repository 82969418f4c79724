import { createHash } from 'node:crypto'
import type { Decoded } from '../stored-envelope.ts'
import { readFormat } from '../stored-envelope.ts'

/** The last field of every file is the SHA-256 (FIPS 180-4) of the JSON text before it; damage is told at once. */
const sealPattern = /,"fingerprint":"([0-9a-f]{64})"\}\n$/
const sealLength = ',"fingerprint":""}\n'.length + 64

export function sealText(value: object): string {
  const body = JSON.stringify(value)
  return `${body.slice(0, -1)},"fingerprint":"${fingerprintOf(body)}"}\n`
}

/** The value of a sealed text, checked byte by byte; `newestFormat` is the newest that this program can read. */
export function unsealText(text: string, newestFormat: number): Decoded<unknown> {
  const seal = sealPattern.exec(text.slice(-sealLength))
  const body = `${text.slice(0, -sealLength)}}`
  if (seal !== null && seal[1] === fingerprintOf(body)) return { kind: 'good', value: JSON.parse(body) }
  // A later program may seal in another way; its number tells it from damage.
  const format = readFormat(parseOrNull(text))
  if (format !== null && format > newestFormat) return { kind: 'newer', format }
  return { kind: 'damaged', what: describeDamage(text, seal !== null) }
}

function describeDamage(text: string, hasSeal: boolean): string {
  if (text === '') return 'it is empty'
  if (/^\0+$/.test(text)) return 'it is filled with zeros'
  if (hasSeal) return 'its fingerprint does not match'
  return parseOrNull(text) === null ? 'it is cut or no record' : 'it has no fingerprint'
}

function parseOrNull(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}

function fingerprintOf(body: string): string {
  return createHash('sha256').update(body, 'utf8').digest('hex')
}
