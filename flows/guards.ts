import type { Facts, FlowEvent } from '#src/conversation/flow.ts'

interface Guarded {
  readonly context: Facts
  readonly event: FlowEvent
}

/** The answer is this value. */
export function says(value: string | boolean): (guarded: Guarded) => boolean {
  return ({ event }) => event.type === 'answer' && event.value === value
}

/** The answer is a number: a pain told where an option was awaited. */
export function saysNumber({ event }: Guarded): boolean {
  return event.type === 'answer' && typeof event.value === 'number'
}

/** A fact holds. */
export function has(fact: string): (guarded: Guarded) => boolean {
  return ({ context }) => context[fact] === true
}

/** A fact has this value. */
export function is(fact: string, value: string): (guarded: Guarded) => boolean {
  return ({ context }) => context[fact] === value
}
