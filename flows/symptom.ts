import { ask, defineFlow, final } from './define-flow.ts'
import { says } from './guards.ts'

const noneOfThese = { guard: says('none'), target: 'closed', actions: 'note-no-sign' }
/** What is wrong may stand on no list. */
const somethingElse = { guard: says('something-else'), target: 'closed', actions: 'raise-sign' }
const ofGroups = [noneOfThese, somethingElse, { target: 'which', actions: 'choose-group' }]

/**
 * One plain question about a sign. It is entered at `ask` after pain, a stop or control lost twice; at `unclear` when words
 * sound like a sign and like none in particular; at `which` from the screen; at `confirm` when words may mean a sign; at
 * `known` when a long-standing sign is named. Left unanswered where a sign is in question, it alarms as unconfirmed.
 */
export const symptom = defineFlow({
  id: 'symptom',
  version: 1,
  initial: 'ask',
  safeState: 'ask',
  enteredAt: ['ask', 'unclear', 'which', 'confirm', 'known'],
  on: {
    stop: { target: 'closed', actions: 'leave-sign-open' },
    'not-today': { target: 'closed', actions: 'leave-sign-open' },
    close: { target: 'closed', actions: 'leave-sign-open' },
  },
  states: {
    ask: ask({ kind: 'open-choice', from: 'sign-groups' }, 'symptom.ask', { answer: ofGroups }),
    unclear: ask({ kind: 'open-choice', from: 'sign-groups' }, 'symptom.unclear', { answer: ofGroups }),
    which: ask({ kind: 'open-choice', from: 'signs-of-group' }, 'symptom.which', {
      answer: [noneOfThese, { target: 'closed', actions: 'raise-sign' }],
    }),
    confirm: ask({ kind: 'yes-no' }, 'symptom.confirm', {
      answer: [{ guard: says(true), target: 'closed', actions: 'raise-suspected' }, { target: 'closed', actions: 'note-no-sign' }],
    }),
    known: ask(
      {
        kind: 'choice',
        options: [
          { value: 'worse', words: 'symptom.known.worse', saidAs: 'symptom.known.say-worse' },
          { value: 'usual', words: 'symptom.known.usual', saidAs: 'symptom.known.say-usual' },
        ],
      },
      'symptom.known',
      {
        answer: [{ guard: says('worse'), target: 'closed', actions: 'raise-suspected' }, { target: 'closed', actions: 'note-no-sign' }],
      },
    ),
    closed: final,
  },
})
