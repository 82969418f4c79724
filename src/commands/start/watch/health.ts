import type { Instant } from '#src/domain/identifier.ts'
import { limits } from '../../status/find-status.ts'
import type { RunningState } from '../../status/running-state.ts'

export type Phase = 'starting' | 'running' | 'stopping'

export interface HealthParts {
  readonly phase: Phase
  readonly doesStoreAnswer: boolean
  readonly heard: RunningState['heard']
  /** The machine's time. */
  readonly at: Instant
}

/**
 * What is wrong with this process, as fixed words; empty where it can do its work. What waits for a person (an open alert, an
 * overdue timer) is no part of it: a supervisor that ends an unhealthy process must not end one for a client's trouble.
 */
export function findWrong({ phase, doesStoreAnswer, heard, at }: HealthParts): readonly string[] {
  return [
    ...(phase === 'running' ? [] : [phase]),
    ...(doesStoreAnswer ? [] : ['store']),
    ...heard.filter((one) => one.at === null || at - one.at > limits.unheardMs).map(({ channel }) => `${channel}-unheard`),
  ]
}
