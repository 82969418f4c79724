import { ask, defineFlow, final } from './define-flow.ts'

/** After an emergency sign: whether the client could call for help. Only an answer ends it: "stop" may mean anything now. */
export const called = defineFlow({
  id: 'called',
  version: 1,
  initial: 'called',
  safeState: 'called',
  on: { close: 'closed' },
  states: {
    called: ask(
      {
        kind: 'choice',
        options: [
          // What may mean either counts as not called: that leads to other ways of getting help.
          { value: 'called', words: 'called.called.yes', saidBy: ['done'], saidAs: 'called.called.say-yes', saidIn: 'called.called.called-in', unless: 'called.called.unless' },
          { value: 'cannot-call', words: 'called.called.no', saidAs: 'called.called.say-no', saidIn: 'called.called.cannot-in' },
        ],
      },
      'called.called',
      { answer: { target: 'closed', actions: 'record-called' } },
    ),
    closed: final,
  },
})
