// The two shapes in which thresholds are written, both with the same bounds: every one with its source in a protocol, some
// as plain numbers in a plan.
import { z } from 'zod'
import type { ThresholdOverrides } from '#src/domain/protocol.ts'
import { camelCaseKeys } from './camel-case-keys.ts'
import { sourceSchema } from './scalar-schemas.ts'
import { thresholdBounds } from './threshold-bounds.ts'

interface Bounds {
  readonly [key: string]: z.ZodType | Bounds
}

type Shaped<B> = { [Key in keyof B]: B[Key] extends z.ZodType<infer Value> ? Leaf<Value> : Shaped<B[Key]> }

export interface Leaf<Value> {
  readonly value: Value
  readonly source: string
}

export type SourcedThresholds = Shaped<typeof thresholdBounds>

function shapeFrom(bounds: Bounds, ofLeaf: (leaf: z.ZodType) => z.ZodType, ofGroup: (group: z.ZodType) => z.ZodType): z.ZodRawShape {
  const entries = Object.entries(bounds).map(([key, inner]) => {
    const schema = inner instanceof z.ZodType ? ofLeaf(inner) : ofGroup(z.strictObject(shapeFrom(inner, ofLeaf, ofGroup)))
    return [key, schema] as const
  })
  return Object.fromEntries(entries)
}

/** A source says where a number comes from, or that nobody has published one: "as usual" is no source. */
const originSchema = sourceSchema.refine((source) => /\b(19|20)\d\d\b|\bour choice\b|common practice, no source/i.test(source), {
  error: 'names no source',
  params: { mend: 'Name the publication with its year, or write "our choice" or "common practice, no source".' },
})

/** The groups of a protocol file, each value with its source. */
export const sourcedShape = shapeFrom(
  thresholdBounds,
  (value) => z.strictObject({ value, source: originSchema }),
  (group) => group,
) as { [Group in keyof SourcedThresholds]: z.ZodType<SourcedThresholds[Group]> }

/** What a plan sets otherwise. */
export const overridesSchema: z.ZodType<ThresholdOverrides> = z
  .strictObject(shapeFrom(thresholdBounds, (value) => value.optional(), (group) => group.optional()))
  .transform((overrides) => camelCaseKeys(overrides) as ThresholdOverrides)
