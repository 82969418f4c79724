import { ask, defineFlow, final } from './define-flow.ts'
import { says } from './guards.ts'

/** The client has moved, or travels, to another time zone; the clock there is read back before it counts. */
export const zone = defineFlow({
  id: 'zone',
  version: 1,
  initial: 'zone',
  safeState: 'zone',
  on: {
    stop: { target: 'closed', actions: 'say-times-kept' },
    'not-today': { target: 'closed', actions: 'say-times-kept' },
    close: 'closed',
  },
  states: {
    zone: ask({ kind: 'zone' }, 'zone.zone', { answer: { target: 'review', actions: 'keep' } }),
    review: ask({ kind: 'yes-no' }, 'zone.review', {
      answer: [{ guard: says(true), target: 'closed', actions: 'move-zone' }, { target: 'zone' }],
    }),
    closed: final,
  },
})
