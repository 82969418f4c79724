import { ask, defineFlow, final } from './define-flow.ts'

/** A therapist clears a lock: how the client was assessed, why it may go on, and from which dose. */
export const clearing = defineFlow({
  id: 'clearing',
  version: 1,
  initial: 'assessed',
  safeState: 'assessed',
  on: { stop: { target: 'closed', actions: 'say-left' }, close: 'closed' },
  states: {
    assessed: ask(
      {
        kind: 'choice',
        options: [
          { value: 'seen', words: 'clearing.assessed.seen' },
          { value: 'phoned', words: 'clearing.assessed.phoned' },
          { value: 'hospital', words: 'clearing.assessed.hospital' },
        ],
      },
      'clearing.assessed',
      { answer: { target: 'reason', actions: 'keep' } },
    ),
    reason: ask({ kind: 'text' }, 'clearing.reason', { answer: { target: 'dose', actions: 'keep' }, back: 'assessed' }),
    dose: ask(
      {
        kind: 'choice',
        options: [
          { value: 'usual', words: 'clearing.dose.usual' },
          { value: 'lowest', words: 'clearing.dose.lowest' },
        ],
      },
      'clearing.dose',
      { answer: { target: 'closed', actions: ['keep', 'clear-lock'] }, back: 'reason' },
    ),
    closed: final,
  },
})
