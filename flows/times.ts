import { ask, decideBy, defineFlow, final } from './define-flow.ts'
import { has, says } from './guards.ts'

const keepsDays = { kind: 'choice', options: [{ value: 'time', words: 'times.what.time' }, { value: 'days', words: 'times.what.days' }] } as const

/**
 * On which days and at what time the client is asked. How many days a week is the therapist's to say. Facts: `isDayCountRight`,
 * `isTimeQuiet`.
 */
export const times = defineFlow({
  id: 'times',
  version: 1,
  initial: 'what',
  safeState: 'what',
  on: {
    stop: { target: 'closed', actions: 'say-times-kept' },
    'not-today': { target: 'closed', actions: 'say-times-kept' },
    close: 'closed',
  },
  states: {
    what: ask(keepsDays, 'times.what', { answer: [{ guard: says('days'), target: 'days' }, { target: 'time' }] }),
    days: ask({ kind: 'weekdays' }, 'times.days', { answer: { target: 'days-judged', actions: 'keep' } }),
    'days-judged': decideBy([
      { guard: has('isDayCountRight'), target: 'review' },
      { target: 'days', actions: 'say-day-count' },
    ]),
    time: ask({ kind: 'wall-time' }, 'times.time', { answer: { target: 'time-judged', actions: 'keep' } }),
    'time-judged': decideBy([
      { guard: has('isTimeQuiet'), target: 'time', actions: 'say-time-quiet' },
      { target: 'review' },
    ]),
    review: ask({ kind: 'yes-no' }, 'times.review', {
      answer: [{ guard: says(true), target: 'closed', actions: 'change-times' }, { target: 'what' }],
    }),
    closed: final,
  },
})
