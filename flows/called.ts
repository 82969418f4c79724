import { ask, defineFlow, final } from './define-flow.ts'

/** After an emergency sign: whether the client could call for help. Asked again until it is answered. */
export const called = defineFlow({
  id: 'called',
  version: 1,
  initial: 'called',
  safeState: 'called',
  on: { close: 'closed', stop: 'closed', 'not-today': 'closed' },
  states: {
    called: ask(
      {
        kind: 'choice',
        options: [
          { value: 'called', words: 'called.called.yes', saidBy: ['done'] },
          { value: 'cannot-call', words: 'called.called.no' },
        ],
      },
      'called.called',
      { answer: { target: 'closed', actions: 'record-called' } },
    ),
    closed: final,
  },
})
