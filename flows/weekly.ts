import { ask, defineFlow, final } from './define-flow.ts'

/** Once a week: the average pain of the last seven days. */
export const weekly = defineFlow({
  id: 'weekly',
  version: 1,
  initial: 'average',
  safeState: 'average',
  on: { stop: 'closed', 'not-today': 'closed', close: 'closed' },
  states: {
    average: ask({ kind: 'pain' }, 'weekly.average', { answer: { target: 'closed', actions: 'record-weekly' } }),
    closed: final,
  },
})
