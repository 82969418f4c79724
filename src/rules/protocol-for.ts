// Decides: which thresholds are in force for one client: the plan's own, and the protocol's for the rest.
// Source: our choice; the bounds of the protocol hold for the plan as well (src/content/threshold-bounds.ts). Reviewed 2026-11.
import type { Plan } from '#src/domain/plan.ts'
import type { Protocol, ThresholdOverrides } from '#src/domain/protocol.ts'

interface Known {
  readonly protocol: Protocol
  readonly inForce: Protocol
}

/** A plan object never changes, so its thresholds are worked out once. */
const known = new WeakMap<Plan, Known>()

export function protocolFor(plan: Plan, protocol: Protocol): Protocol {
  if (plan.thresholds === undefined) return protocol
  const before = known.get(plan)
  if (before?.protocol === protocol) return before.inForce
  const inForce = withOverrides(protocol, plan.thresholds)
  known.set(plan, { protocol, inForce })
  return inForce
}

/** A list is replaced as a whole. */
export function withOverrides(protocol: Protocol, overrides: ThresholdOverrides | undefined): Protocol {
  return merge(protocol, overrides) as Protocol
}

function merge(base: unknown, own: unknown): unknown {
  if (own === undefined) return base
  if (typeof base !== 'object' || base === null || Array.isArray(base)) return own
  const entries = Object.entries(base).map(([key, inner]) => [key, merge(inner, (own as Record<string, unknown>)[key])] as const)
  return Object.fromEntries(entries)
}
