import { ask, defineFlow, final } from './define-flow.ts'
import { says } from './guards.ts'

/** The client takes back their agreement. Whoever only needs a break is offered one; a reason may be left out. */
export const withdrawal = defineFlow({
  id: 'withdrawal',
  version: 1,
  initial: 'sure',
  safeState: 'sure',
  on: {
    stop: { target: 'closed', actions: 'say-not-withdrawn' },
    'not-today': { target: 'closed', actions: 'say-not-withdrawn' },
    close: 'closed',
  },
  states: {
    sure: ask(
      {
        kind: 'choice',
        options: [
          { value: 'leave', words: 'withdrawal.sure.leave', saidBy: ['withdraw'], saidAs: 'withdrawal.sure.say-leave' },
          { value: 'pause', words: 'withdrawal.sure.pause', saidBy: ['pause'], saidAs: 'withdrawal.sure.say-pause' },
          { value: 'stay', words: 'withdrawal.sure.stay', saidAs: 'withdrawal.sure.say-stay' },
        ],
      },
      'withdrawal.sure',
      {
        answer: [
          { guard: says('leave'), target: 'reason' },
          { guard: says('pause'), target: 'closed', actions: 'ask-pause' },
          { target: 'closed', actions: 'say-not-withdrawn' },
        ],
      },
    ),
    reason: ask({ kind: 'text', mayBeEmpty: true }, 'withdrawal.reason', {
      answer: { target: 'closed', actions: 'withdraw' },
      // The wish has been told; only the reason is missing.
      stop: { target: 'closed', actions: 'withdraw' },
      'not-today': { target: 'closed', actions: 'withdraw' },
    }),
    closed: final,
  },
})
