import { ask, defineFlow, final } from './define-flow.ts'

/** A therapist who has just joined the clinic: how to name them and when they are on duty. */
export const settlingIn = defineFlow({
  id: 'settling-in',
  version: 1,
  initial: 'name',
  safeState: 'name',
  on: { close: 'closed' },
  states: {
    name: ask({ kind: 'text' }, 'settling-in.name', { answer: { target: 'zone', actions: 'keep' } }),
    zone: ask({ kind: 'zone' }, 'settling-in.zone', { answer: { target: 'days', actions: 'keep' }, back: 'name' }),
    days: ask({ kind: 'weekdays' }, 'settling-in.days', { answer: { target: 'hours', actions: 'keep' }, back: 'zone' }),
    hours: ask({ kind: 'time-span' }, 'settling-in.hours', {
      answer: { target: 'closed', actions: ['keep', 'settle-in'] },
      back: 'days',
    }),
    closed: final,
  },
})
