import { z } from 'zod'

/** Ids are lower-case words joined by hyphens and equal their file or key. */
export const idSchema = textLike(
  /^[a-z0-9]+(-[a-z0-9]+)*$/,
  'must be an id',
  'Use lower-case letters, digits and single hyphens.',
)

/** Where a value comes from: a publication, or that it is common practice or our choice. */
export const sourceSchema = z.string().trim().min(3)

export const sentenceSchema = z.string().trim().min(1).max(400)

/** Text of a pattern that a person can be told about in words. */
export function textLike(pattern: RegExp, message: string, mend: string): z.ZodType<string> {
  return z.string().refine((text) => pattern.test(text), { error: message, params: { mend } })
}

/** A check across several values waits until each of them is right, else it would add a second, false problem. */
export const whenWhole = { when: ({ issues }: { issues: readonly unknown[] }): boolean => issues.length === 0 }

/** A list in which nothing stands twice. */
export function listOf<T>(item: z.ZodType<T>): z.ZodType<T[]> {
  return z.array(item).refine((items) => new Set(items).size === items.length, {
    error: 'has an entry twice',
    params: { mend: 'Remove the second one.' },
    ...whenWhole,
  })
}

/** A value with its source, as thresholds stand in a file. */
export function sourced<T>(value: z.ZodType<T>): z.ZodType<T> {
  return z.strictObject({ value, source: sourceSchema }).transform((leaf) => leaf.value)
}
