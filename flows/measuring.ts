import { ask, decideBy, defineFlow, final } from './define-flow.ts'
import { has, says } from './guards.ts'

/**
 * A therapist enters maximal tests: direction by direction, each with its trials. Facts: `isImplausible`,
 * `hasDirectionLeft`, `hasChoice` (more than one direction to begin with).
 */
export const measuring = defineFlow({
  id: 'measuring',
  version: 1,
  initial: 'choosing',
  safeState: 'choosing',
  on: { stop: { target: 'closed', actions: 'say-left' }, close: 'closed' },
  states: {
    choosing: decideBy([
      { guard: has('hasChoice'), target: 'direction' },
      { guard: has('hasDirectionLeft'), target: 'trials', actions: 'take-only-direction' },
      { target: 'review' },
    ]),
    direction: ask({ kind: 'open-choice', from: 'directions-to-measure' }, 'measuring.direction', {
      answer: [{ guard: says('done'), target: 'review' }, { target: 'trials', actions: 'keep' }],
    }),
    trials: ask({ kind: 'measured-force' }, 'measuring.trials', {
      answer: { target: 'weighing', actions: 'keep' },
      back: { guard: has('hasChoice'), target: 'direction' },
    }),
    weighing: decideBy([
      { guard: has('isImplausible'), target: 'trials', actions: 'say-implausible' },
      { target: 'choosing', actions: 'keep-trials' },
    ]),
    review: ask(
      {
        kind: 'choice',
        options: [
          { value: 'save', words: 'measuring.review.save', saidBy: ['done', 'ready'] },
          { value: 'again', words: 'measuring.review.again' },
          { value: 'leave', words: 'measuring.review.leave' },
        ],
      },
      'measuring.review',
      {
        answer: [
          { guard: says('save'), target: 'closed', actions: 'save-measurements' },
          { guard: says('again'), target: 'choosing', actions: 'forget-measurements' },
          { target: 'closed', actions: 'say-left' },
        ],
        back: { target: 'choosing', actions: 'forget-last-measurement' },
      },
    ),
    closed: final,
  },
})
