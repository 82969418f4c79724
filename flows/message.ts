import { ask, defineFlow, final } from './define-flow.ts'

/** A message to the therapist, apart from the coaching questions. */
export const message = defineFlow({
  id: 'message',
  version: 1,
  initial: 'text',
  safeState: 'text',
  on: {
    stop: { target: 'closed', actions: 'say-nothing-sent' },
    'not-today': { target: 'closed', actions: 'say-nothing-sent' },
    close: { target: 'closed', actions: 'say-nothing-sent' },
  },
  states: {
    text: ask({ kind: 'text' }, 'message.text', { answer: { target: 'closed', actions: 'send-message' } }),
    closed: final,
  },
})
