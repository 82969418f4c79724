import { ask, decideBy, defineFlow, final, type Way } from './define-flow.ts'
import { has, says } from './guards.ts'

const isMoment: Way['guard'] = says('moment')
const isIll: Way['guard'] = says('ill')

/**
 * No training for days: illness, travel. It is entered at `back` when the break is over, or after a week where nobody knew how
 * long it would be. Facts: `isIll`.
 */
export const pause = defineFlow({
  id: 'pause',
  version: 1,
  initial: 'why',
  safeState: 'why',
  enteredAt: ['back'],
  on: { stop: { target: 'closed', actions: 'say-not-paused' }, 'not-today': { target: 'closed', actions: 'say-not-paused' }, close: 'closed' },
  states: {
    why: ask(
      {
        kind: 'choice',
        options: [
          { value: 'ill', words: 'pause.why.ill', saidAs: 'pause.why.say-ill' },
          { value: 'away', words: 'pause.why.away', saidAs: 'pause.why.say-away' },
          { value: 'other', words: 'pause.why.other', saidAs: 'pause.why.say-other' },
          { value: 'moment', words: 'pause.why.moment', saidAs: 'pause.why.say-moment' },
        ],
      },
      'pause.why',
      {
        answer: [
          { guard: isMoment, target: 'closed', actions: 'say-take-your-time' },
          // Being ill can be a sign, and is asked about like one.
          { guard: isIll, target: 'how-long', actions: ['keep', 'ask-symptom'] },
          { target: 'how-long', actions: 'keep' },
        ],
      },
    ),
    'how-long': ask(
      {
        kind: 'choice',
        options: [
          { value: '3', words: 'pause.how-long.days', saidAs: 'pause.how-long.say-days' },
          { value: '7', words: 'pause.how-long.week', saidAs: 'pause.how-long.say-week' },
          { value: '14', words: 'pause.how-long.two-weeks', saidAs: 'pause.how-long.say-two-weeks' },
          { value: '28', words: 'pause.how-long.four-weeks', saidAs: 'pause.how-long.say-four-weeks' },
          { value: 'open', words: 'pause.how-long.open', saidAs: 'pause.how-long.say-open' },
        ],
      },
      'pause.how-long',
      { answer: { target: 'closed', actions: ['keep', 'begin-pause'] } },
    ),
    back: ask(
      {
        kind: 'choice',
        options: [
          { value: 'yes', words: 'pause.back.yes', saidBy: ['ready', 'done'], saidAs: 'pause.back.say-yes' },
          { value: 'longer', words: 'pause.back.longer', saidBy: ['later', 'pause'], saidAs: 'pause.back.say-longer' },
        ],
      },
      'pause.back',
      {
        answer: [{ guard: says('yes'), target: 'recovered' }, { target: 'how-long' }],
        stop: 'closed',
        'not-today': 'closed',
      },
    ),
    // After an illness the question about signs comes before the training does.
    recovered: decideBy([
      { guard: has('isIll'), target: 'closed', actions: ['end-pause', 'ask-symptom'] },
      { target: 'closed', actions: 'end-pause' },
    ]),
    closed: final,
  },
})
