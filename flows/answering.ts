import { ask, defineFlow, final } from './define-flow.ts'

/** A therapist answers a client's message. */
export const answering = defineFlow({
  id: 'answering',
  version: 1,
  initial: 'text',
  safeState: 'text',
  on: { stop: { target: 'closed', actions: 'say-left' }, close: 'closed' },
  states: {
    text: ask({ kind: 'text' }, 'answering.text', { answer: { target: 'closed', actions: ['keep', 'send-answer'] } }),
    closed: final,
  },
})
