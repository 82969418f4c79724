import type { z } from 'zod'
import { describeIssue } from './describe-issue.ts'
import type { Problem } from './problem.ts'
import { readYaml, type PathSegment, type YamlSource } from './yaml-source.ts'

/** A value read from a file, with the file at hand so that later checks can name a line. */
export interface Sourced<T> {
  readonly value: T
  readonly source: YamlSource
}

export type ShapedReading<T> =
  | ({ readonly kind: 'read' } & Sourced<T>)
  | { readonly kind: 'unreadable'; readonly problems: readonly Problem[] }

/** Reads YAML of a known shape, or lists everything that keeps it from having that shape. */
export function readShaped<T>(text: string, file: string, schema: z.ZodType<T>): ShapedReading<T> {
  const reading = readYaml(text, file)
  if (reading.kind === 'unreadable') return reading
  const { source } = reading
  const parsed = schema.safeParse(source.value)
  if (parsed.success) return { kind: 'read', value: parsed.data, source }
  const problems = parsed.error.issues
    .flatMap((issue) => describeIssue(issue, (path) => valueAt(source.value, path)))
    .map(({ path, message, mend }) => source.problem(path, message, mend))
  return { kind: 'unreadable', problems }
}

function valueAt(value: unknown, path: readonly PathSegment[]): unknown {
  return path.reduce<unknown>((inner, segment) => {
    return typeof inner === 'object' && inner !== null ? (inner as Record<PathSegment, unknown>)[segment] : undefined
  }, value)
}
