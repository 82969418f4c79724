import type { Facts, FlowEvent } from '#src/conversation/flow.ts'

interface Guarded {
  readonly context: Facts
  readonly event: FlowEvent
}

/** What a guard looks at, as data: a picture can say it, and a walk can try every side of it. */
export type Test =
  | { readonly kind: 'answer'; readonly value: string | boolean }
  | { readonly kind: 'number' }
  | { readonly kind: 'fact'; readonly fact: string; readonly value: string | true }
  | { readonly kind: 'not'; readonly of: readonly [Test] }
  | { readonly kind: 'both' | 'either'; readonly of: readonly [Test, Test] }

/** XState calls it like any other function. */
export interface Guard {
  (guarded: Guarded): boolean
  readonly test: Test
}

function guard(test: Test, holds: (guarded: Guarded) => boolean): Guard {
  return Object.assign((guarded: Guarded) => holds(guarded), { test })
}

/** The answer is this value. */
export function says(value: string | boolean): Guard {
  return guard({ kind: 'answer', value }, ({ event }) => event.type === 'answer' && event.value === value)
}

/** The answer is a number: a pain told where an option was awaited. */
export const saysNumber = guard({ kind: 'number' }, ({ event }) => event.type === 'answer' && typeof event.value === 'number')

/** A fact holds. */
export function has(fact: string): Guard {
  return guard({ kind: 'fact', fact, value: true }, ({ context }) => context[fact] === true)
}

/** A fact has this value. */
export function is(fact: string, value: string): Guard {
  return guard({ kind: 'fact', fact, value }, ({ context }) => context[fact] === value)
}

export function not(one: Guard): Guard {
  return guard({ kind: 'not', of: [one.test] }, (guarded) => !one(guarded))
}

export function both(one: Guard, other: Guard): Guard {
  return guard({ kind: 'both', of: [one.test, other.test] }, (guarded) => one(guarded) && other(guarded))
}

export function either(one: Guard, other: Guard): Guard {
  return guard({ kind: 'either', of: [one.test, other.test] }, (guarded) => one(guarded) || other(guarded))
}
