import { ask, decideBy, defineFlow, final } from './define-flow.ts'
import { has, says } from './guards.ts'

/** A client who opened the invitation: what this is and is not, consent, time zone, reminder time. Facts: `isTimeQuiet`. */
export const consent = defineFlow({
  id: 'consent',
  version: 1,
  initial: 'about',
  safeState: 'about',
  on: {
    stop: { target: 'closed', actions: 'pause-consent' },
    'not-today': { target: 'closed', actions: 'pause-consent' },
    close: { target: 'closed', actions: 'pause-consent' },
  },
  states: {
    about: ask({ kind: 'choice', options: [{ value: 'next', words: 'consent.about.next', saidBy: ['ready', 'done'] }] }, 'consent.about', {
      answer: 'agree',
    }),
    agree: ask({ kind: 'yes-no' }, 'consent.agree', {
      answer: [
        { guard: says(true), target: 'zone', actions: 'give-consent' },
        { target: 'closed', actions: 'refuse-consent' },
      ],
    }),
    zone: ask({ kind: 'yes-no' }, 'consent.zone', {
      answer: [{ guard: says(true), target: 'time' }, { target: 'other-zone' }],
    }),
    'other-zone': ask({ kind: 'zone' }, 'consent.other-zone', { answer: { target: 'time', actions: 'set-zone' } }),
    time: ask({ kind: 'yes-no' }, 'consent.time', {
      answer: [{ guard: says(true), target: 'time-judged' }, { target: 'other-time' }],
    }),
    'other-time': ask({ kind: 'wall-time' }, 'consent.other-time', { answer: { target: 'time-judged', actions: 'set-time' } }),
    'time-judged': decideBy([
      { guard: has('isTimeQuiet'), target: 'other-time', actions: 'say-time-quiet' },
      { target: 'closed', actions: 'finish-joining' },
    ]),
    closed: final,
  },
})
