import { ask, decideBy, defineFlow, final } from './define-flow.ts'
import { has, says } from './guards.ts'

/** A therapist sets another dose than the rules came to, inside the chain, with a reason. Fact: `hasChoice` (of ladders). */
export const placing = defineFlow({
  id: 'placing',
  version: 1,
  initial: 'choosing',
  safeState: 'choosing',
  on: { stop: { target: 'closed', actions: 'say-left' }, close: 'closed' },
  states: {
    choosing: decideBy([{ guard: has('hasChoice'), target: 'ladder' }, { target: 'dose', actions: 'take-only-ladder' }]),
    ladder: ask({ kind: 'open-choice', from: 'ladders-to-place' }, 'placing.ladder', { answer: { target: 'dose', actions: 'keep' } }),
    dose: ask({ kind: 'open-choice', from: 'doses-to-place' }, 'placing.dose', {
      answer: { target: 'reason', actions: 'keep' },
      back: { guard: has('hasChoice'), target: 'ladder' },
    }),
    reason: ask({ kind: 'text' }, 'placing.reason', { answer: { target: 'review', actions: 'keep' }, back: 'dose' }),
    review: ask(
      {
        kind: 'choice',
        options: [
          { value: 'set', words: 'placing.review.set', saidBy: ['done', 'ready'] },
          { value: 'leave', words: 'placing.review.leave' },
        ],
      },
      'placing.review',
      {
        answer: [{ guard: says('set'), target: 'closed', actions: 'place' }, { target: 'closed', actions: 'say-left' }],
        back: 'reason',
      },
    ),
    closed: final,
  },
})
