import type { Instant } from '#src/domain/identifier.ts'

export interface Clock {
  now(): Instant
}
