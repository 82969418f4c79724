import { ask, defineFlow, final } from './define-flow.ts'
import { says } from './guards.ts'

/** A therapist types the item scores of a client's disability score, and looks at the result before it counts. */
export const disability = defineFlow({
  id: 'disability',
  version: 1,
  initial: 'items',
  safeState: 'items',
  on: { stop: { target: 'closed', actions: 'say-left' }, close: 'closed' },
  states: {
    items: ask({ kind: 'item-scores' }, 'disability.items', { answer: { target: 'review', actions: 'keep' } }),
    review: ask(
      {
        kind: 'choice',
        options: [
          { value: 'save', words: 'disability.review.save', saidBy: ['done', 'ready'] },
          { value: 'again', words: 'disability.review.again' },
          { value: 'leave', words: 'disability.review.leave' },
        ],
      },
      'disability.review',
      {
        answer: [
          { guard: says('save'), target: 'closed', actions: 'save-disability' },
          { guard: says('again'), target: 'items' },
          { target: 'closed', actions: 'say-left' },
        ],
        back: 'items',
      },
    ),
    closed: final,
  },
})
