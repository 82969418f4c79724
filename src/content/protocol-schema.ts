import { z } from 'zod'
import type { Protocol, ThresholdPath, ThresholdSources } from '#src/domain/protocol.ts'
import { camelCaseKeys, type CamelCaseKeys } from './camel-case-keys.ts'
import { idSchema } from './scalar-schemas.ts'
import { keysOf, orderFaults } from './threshold-orders.ts'
import { sourcedShape, type Leaf, type SourcedThresholds } from './threshold-schemas.ts'

/** A protocol with where each of its values comes from. */
export interface SourcedProtocol {
  readonly protocol: Protocol
  readonly sources: ThresholdSources
}

export const protocolFileSchema: z.ZodType<SourcedProtocol> = z
  .strictObject({ id: idSchema, ...sourcedShape })
  .transform(({ id, ...groups }, context): SourcedProtocol => {
    const thresholds = camelCaseKeys(groups)
    const protocol: Protocol = { id, ...valuesOf(thresholds) }
    for (const { higher, message } of orderFaults(protocol)) {
      context.issues.push({ code: 'custom', input: id, path: [...keysOf(higher)], message, params: { mend: 'Raise it, or lower the one before.' } })
    }
    return { protocol, sources: new Map(sourcesOf(thresholds, '')) }
  })

export const protocolSchema: z.ZodType<Protocol> = protocolFileSchema.transform(({ protocol }) => protocol)

type Values<T> = { [Key in keyof T]: T[Key] extends Leaf<infer Value> ? Value : Values<T[Key]> }

function isLeaf(value: object): value is Leaf<unknown> {
  return 'value' in value && 'source' in value
}

function valuesOf(thresholds: CamelCaseKeys<SourcedThresholds>): Values<CamelCaseKeys<SourcedThresholds>> {
  const strip = (inner: object): unknown =>
    isLeaf(inner) ? inner.value : Object.fromEntries(Object.entries(inner).map(([key, value]) => [key, strip(value as object)]))
  return strip(thresholds) as Values<CamelCaseKeys<SourcedThresholds>>
}

function sourcesOf(thresholds: object, prefix: string): [ThresholdPath, string][] {
  return Object.entries(thresholds).flatMap(([key, inner]: [string, object]) =>
    isLeaf(inner) ? [[`${prefix}${key}` as ThresholdPath, inner.source]] : sourcesOf(inner, `${prefix}${key}.`),
  )
}
