import { z } from 'zod'
import { certainties, measureIds, populations, type Figure, type Measure, type Measures, type MeasureSource } from '#src/domain/measure.ts'
import { idSchema, sourced, sourceSchema, whenWhole } from './scalar-schemas.ts'

const figureSchema: z.ZodType<Figure> = z.strictObject({ value: z.number().positive(), certainty: z.enum(certainties) })
const figure = figureSchema.nullable().default(null)

const sourceOfMeasure = z
  .strictObject({
    id: idSchema,
    citation: sourceSchema,
    population: z.enum(populations),
    detectable: figure,
    standard_error: figure,
    important: figure,
    important_percent: figure,
  })
  .transform(({ standard_error: standardError, important_percent: importantPercent, ...source }): MeasureSource => ({ ...source, standardError, importantPercent }))

const measureSchema = z
  .strictObject({ least: z.int(), most: z.int(), better: z.enum(['lower', 'higher']), sources: z.array(sourceOfMeasure).min(1) })
  .superRefine(({ least, most, sources }, context) => {
    const refuse = (index: number, key: string, message: string, mend: string): void =>
      context.addIssue({ code: 'custom', path: ['sources', index, key], message, params: { mend } })
    sources.forEach((source, index) => {
      const isTwice = sources.findIndex((other) => other.id === source.id) < index
      if (isTwice) refuse(index, 'id', 'stands twice', 'Remove one of the two.')
      for (const key of ['detectable', 'important'] as const) {
        // Percentage points entered as points would make hardly any change large enough.
        const isTooLarge = (source[key]?.value ?? 0) > (most - least) / 2
        if (isTooLarge) refuse(index, key, 'is more than half of the whole scale', 'Give it in points of the scale, not in per cent.')
      }
    })
  }, whenWhole)

// How often somebody is asked is our choice within bounds that are ours as well.
const everyWeeks = sourced(z.int().min(1).max(12))

export const measuresSchema: z.ZodType<Measures> = z
  .strictObject({
    check_ins: z.strictObject({ activities_every_weeks: everyWeeks, global_change_every_weeks: everyWeeks }),
    measures: z.strictObject(Object.fromEntries(measureIds.map((id) => [id, measureSchema]))),
  })
  .transform(({ check_ins: checkIns, measures }): Measures => ({
    of: Object.fromEntries(Object.entries(measures).map(([id, measure]) => [id, { id, ...measure } as Measure])) as Measures['of'],
    everyWeeks: { activities: checkIns.activities_every_weeks, globalChange: checkIns.global_change_every_weeks },
  }))
