import { thresholdAt, type ThresholdPath } from '#src/domain/protocol.ts'
import type { Plan } from '#src/domain/plan.ts'
import { protocolFor } from '#src/rules/protocol-for.ts'
import type { Content } from './content.ts'
import type { Problem } from './problem.ts'
import { keysOf, orderFaults } from './threshold-orders.ts'
import type { YamlSource } from './yaml-source.ts'

/** Whether what a plan sets otherwise still makes sense beside the rest of its protocol. */
export function checkThresholds(plan: Plan, source: YamlSource, content: Content): readonly Problem[] {
  const protocol = content.protocols.get(plan.protocol)
  const own = plan.thresholds
  if (protocol === undefined || own === undefined) return []
  const problemAt = (path: ThresholdPath, message: string): Problem =>
    source.problem(['thresholds', ...keysOf(path)], message, 'Change it, or set the other one in the plan as well.')
  return orderFaults(protocolFor(plan, protocol)).map(({ lower, higher, message, lowerMessage }) =>
    thresholdAt(own, higher) === undefined ? problemAt(lower, lowerMessage) : problemAt(higher, message),
  )
}
