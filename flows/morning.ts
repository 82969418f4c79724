import { ask, decideBy, defineFlow, final } from './define-flow.ts'
import { has } from './guards.ts'

/** The morning after a session. Facts: `asksSymptom`. */
export const morning = defineFlow({
  id: 'morning',
  version: 1,
  initial: 'pain',
  safeState: 'pain',
  on: {
    stop: 'closed',
    'not-today': 'closed',
    close: 'closed',
  },
  states: {
    pain: ask({ kind: 'pain' }, 'morning.pain', { answer: { target: 'judged', actions: 'record-morning' } }),
    judged: decideBy([
      { guard: has('asksSymptom'), target: 'closed', actions: ['tell-morning', 'ask-symptom'] },
      { target: 'closed', actions: 'tell-morning' },
    ]),
    closed: final,
  },
})
