import { ask, decideBy, defineFlow, final } from './define-flow.ts'
import { has, says } from './guards.ts'

/**
 * A therapist says when they are away and who stands in, or changes their duty times. Facts: `isAway`, `isPeriod` (back
 * after the first day away, and not a year of it), `hasColleague`.
 */
export const duty = defineFlow({
  id: 'duty',
  version: 1,
  initial: 'what',
  safeState: 'what',
  on: { stop: { target: 'closed', actions: 'say-left' }, close: 'closed' },
  states: {
    what: ask(
      {
        kind: 'choice',
        options: [
          { value: 'away', words: 'duty.what.away', saidAs: 'duty.what.say-away' },
          { value: 'here', words: 'duty.what.here', saidAs: 'duty.what.say-here' },
          { value: 'times', words: 'duty.what.times', saidAs: 'duty.what.say-times' },
        ],
      },
      'duty.what',
      {
        answer: [
          { guard: says('away'), target: 'from', actions: 'keep' },
          { guard: says('here'), target: 'returning' },
          { target: 'days', actions: 'keep' },
        ],
      },
    ),
    returning: decideBy([
      { guard: has('isAway'), target: 'closed', actions: 'end-away' },
      { target: 'closed', actions: 'say-not-away' },
    ]),
    from: ask({ kind: 'date', from: 'first-days-away' }, 'duty.from', { answer: { target: 'until', actions: 'keep' }, back: 'what' }),
    until: ask({ kind: 'date', from: 'days-back' }, 'duty.until', { answer: { target: 'weighing', actions: 'keep' }, back: 'from' }),
    weighing: decideBy([
      { guard: has('isPeriod'), target: 'choosing' },
      { target: 'from', actions: 'say-no-period' },
    ]),
    choosing: decideBy([{ guard: has('hasColleague'), target: 'stand-in' }, { target: 'review' }]),
    'stand-in': ask({ kind: 'open-choice', from: 'stand-ins' }, 'duty.stand-in', { answer: { target: 'review', actions: 'keep' }, back: 'until' }),
    review: ask(
      {
        kind: 'choice',
        options: [
          { value: 'save', words: 'duty.review.save', saidBy: ['done', 'ready'] },
          { value: 'again', words: 'duty.review.again' },
          { value: 'leave', words: 'duty.review.leave' },
        ],
      },
      'duty.review',
      {
        answer: [
          { guard: says('save'), target: 'closed', actions: 'go-away' },
          { guard: says('again'), target: 'from' },
          { target: 'closed', actions: 'say-left' },
        ],
        back: [{ guard: has('hasColleague'), target: 'stand-in' }, { target: 'until' }],
      },
    ),
    days: ask({ kind: 'weekdays' }, 'settling-in.days', { answer: { target: 'hours', actions: 'keep' }, back: 'what' }),
    hours: ask({ kind: 'time-span' }, 'settling-in.hours', { answer: { target: 'closed', actions: ['keep', 'change-cover'] }, back: 'days' }),
    closed: final,
  },
})
