// Conversations of a flow that has been given another name go on under that name, wherever they lie on the stack: what asks
// whether a flow is open must find it.
import type { Flows } from '#src/conversation/flow.ts'
import type { AnyDocument } from './head.ts'

/** The flows of a process never change, so their former names are collected once. */
const known = new WeakMap<Flows, ReadonlyMap<string, string>>()

function formerNames(flows: Flows): ReadonlyMap<string, string> {
  const names = known.get(flows) ?? new Map([...flows.values()].flatMap((flow) => flow.formerly.map((name) => [name, flow.id] as const)))
  known.set(flows, names)
  return names
}

/** The document itself where every name is of today. */
export function renameConversations<D extends AnyDocument>(document: D, flows: Flows): D {
  if (document.kind === 'clinic') return document
  const names = formerNames(flows)
  // A name that is in use again is the flow's that has it now.
  const isFormer = (flow: string): boolean => names.has(flow) && !flows.has(flow)
  if (!document.conversations.some(({ flow }) => isFormer(flow))) return document
  const conversations = document.conversations.map((one) => (isFormer(one.flow) ? { ...one, flow: names.get(one.flow) ?? one.flow } : one))
  return { ...document, conversations }
}
