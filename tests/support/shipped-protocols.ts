// The protocols as they ship, each read by itself.
import { readFileSync, readdirSync } from 'node:fs'
import { parse } from 'yaml'
import { protocolFileSchema, type SourcedProtocol } from '#src/content/protocol-schema.ts'
import { readShaped } from '#src/content/read-shaped.ts'
import type { Protocol, ThresholdSources } from '#src/domain/protocol.ts'

const folder = 'content/protocols'

export const protocolIds: readonly string[] = readdirSync(folder).map((file) => file.replace('.yaml', '')).sort()

const protocols = new Map(protocolIds.map((id): [string, SourcedProtocol] => [id, readProtocol(id)]))

function readProtocol(id: string): SourcedProtocol {
  const reading = readShaped(textOf(id), `${id}.yaml`, protocolFileSchema)
  if (reading.kind === 'unreadable') throw new Error(`${id}.yaml: ${reading.problems.map(({ path, message }) => `${path} ${message}`).join('; ')}`)
  return reading.value
}

function textOf(id: string): string {
  return readFileSync(`${folder}/${id}.yaml`, 'utf8')
}

function known(id: string): SourcedProtocol {
  const found = protocols.get(id)
  if (!found) throw new Error(`no protocol ${id}`)
  return found
}

export function shippedProtocol(id: string): Protocol {
  return known(id).protocol
}

export function sourcesOf(id: string): ThresholdSources {
  return known(id).sources
}

/** Every leaf as it stands in the file, by its path there. */
export function leavesInFile(id: string): ReadonlyMap<string, { readonly value: unknown; readonly source: unknown }> {
  const leaves = new Map<string, { value: unknown; source: unknown }>()
  const visit = (inner: unknown, path: string): void => {
    if (typeof inner !== 'object' || inner === null) return
    if ('value' in inner && 'source' in inner) leaves.set(path, { value: inner.value, source: inner.source })
    else for (const [key, next] of Object.entries(inner)) visit(next, path === '' ? key : `${path}.${key}`)
  }
  visit(parse(textOf(id)), '')
  return leaves
}
