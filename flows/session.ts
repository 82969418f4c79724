import { ask, decideBy, defineFlow, final } from './define-flow.ts'
import { either, has, is, not, says, saysNumber } from './guards.ts'

const isUnwell = either(says('sore'), says('ill'))

/**
 * One day's session. Facts: `hasBegun`, `hasSets`, `needsMorning`, `needsWorstSince`, `isAnythingDue`, `before`,
 * `hasNextSet`, `isSetUnderWay`, `isRed`, `asksSymptom`, `asksEffort`.
 */
export const session = defineFlow({
  id: 'session',
  version: 2,
  initial: 'ready',
  safeState: 'choosing',
  on: {
    stop: [
      { guard: has('hasBegun'), target: 'closing', actions: ['end-early', 'ask-symptom'] },
      { target: 'closed', actions: ['note-not-today', 'ask-symptom'] },
    ],
    'not-today': [
      { guard: has('hasSets'), target: 'closing', actions: ['end-early', 'ask-symptom'] },
      { target: 'not-today-why' },
    ],
    close: [
      // Nobody is there to be asked how hard it was.
      { guard: has('hasBegun'), target: 'closed', actions: ['end-early', 'close-session'] },
      { target: 'closed', actions: 'note-unanswered' },
    ],
  },
  states: {
    ready: ask(
      {
        kind: 'choice',
        options: [
          { value: 'ready', words: 'session.ready.yes', saidBy: ['ready', 'done'] },
          { value: 'later', words: 'session.ready.later', saidBy: ['later'] },
          { value: 'not-today', words: 'session.ready.not-today', saidBy: ['not-today'] },
        ],
      },
      'session.ready',
      {
        answer: [
          { guard: says('ready'), target: 'screen', actions: 'begin-session' },
          { guard: says('later'), target: 'closed', actions: 'remind-later' },
          { target: 'not-today-why' },
        ],
      },
    ),
    'not-today-why': ask(
      {
        kind: 'choice',
        options: [
          { value: 'no-time', words: 'session.not-today-why.no-time' },
          { value: 'away', words: 'session.not-today-why.away' },
          { value: 'sore', words: 'session.not-today-why.sore' },
          { value: 'ill', words: 'session.not-today-why.ill' },
        ],
      },
      'session.not-today-why',
      {
        answer: [
          { guard: isUnwell, target: 'leaving', actions: ['note-not-today', 'ask-symptom'] },
          { target: 'leaving', actions: 'note-not-today' },
        ],
        // Asked why and answering "stop" or "not today" again is leaving without a reason, which is allowed.
        'not-today': { target: 'leaving', actions: 'note-not-today' },
      },
    ),
    leaving: decideBy([{ guard: has('hasBegun'), target: 'closing', actions: 'end-early' }, { target: 'closed' }]),
    screen: ask({ kind: 'open-choice', from: 'screen-groups' }, 'session.screen', {
      answer: [
        { guard: says('none'), target: 'before', actions: 'record-screen' },
        { target: 'screen', actions: 'ask-about-group' },
      ],
    }),
    before: decideBy([
      { guard: has('needsMorning'), target: 'morning' },
      { guard: has('needsWorstSince'), target: 'worst-since' },
      { target: 'pain-now' },
    ]),
    morning: ask({ kind: 'pain', mayBeForgotten: true }, 'session.morning', { answer: { target: 'before', actions: 'record-morning' } }),
    'worst-since': ask({ kind: 'pain', mayBeForgotten: true }, 'session.worst-since', { answer: { target: 'before', actions: 'record-worst-since' } }),
    'pain-now': ask({ kind: 'pain' }, 'session.pain-now', { answer: { target: 'judging', actions: 'record-pain-now' } }),
    judging: decideBy([
      { guard: is('before', 'urgent'), target: 'closed', actions: 'raise-severe-pain' },
      { guard: not(has('isAnythingDue')), target: 'closed', actions: 'say-nothing-due' },
      { guard: is('before', 'no session'), target: 'closing', actions: 'ask-symptom' },
      { target: 'warm-up' },
    ]),
    'warm-up': ask(
      {
        kind: 'choice',
        options: [
          { value: 'done', words: 'session.warm-up.done', saidBy: ['done', 'ready'] },
          { value: 'cannot', words: 'session.warm-up.cannot', saidBy: ['skip'] },
        ],
      },
      'session.warm-up',
      {
        answer: [
          { guard: says('done'), target: 'choosing', actions: 'record-warm-up' },
          { target: 'closing', actions: ['end-early', 'ask-symptom'] },
        ],
      },
    ),
    choosing: decideBy([
      // A conversation that comes here from a version that is no more goes on with the set it was in.
      { guard: has('isSetUnderWay'), target: 'after-pain' },
      { guard: has('hasNextSet'), target: 'set' },
      { target: 'closing' },
    ]),
    set: ask(
      {
        kind: 'choice-or-pain',
        options: [
          { value: 'done', words: 'session.set.done', saidBy: ['done', 'ready'] },
          { value: 'unfinished', words: 'session.set.unfinished' },
          { value: 'left-out', words: 'session.set.left-out', saidBy: ['skip'] },
        ],
      },
      'session.set',
      {
        answer: [
          { guard: saysNumber, target: 'after-pain', actions: ['record-set-done', 'record-pain'] },
          { guard: says('left-out'), target: 'choosing', actions: 'leave-set-out' },
          { target: 'pain', actions: 'record-set-done' },
        ],
      },
    ),
    pain: ask({ kind: 'pain' }, 'session.pain', { answer: { target: 'after-pain', actions: 'record-pain' } }),
    // After red pain nothing more is asked about the set.
    'after-pain': decideBy([{ guard: has('isRed'), target: 'judged', actions: 'complete-set' }, { target: 'control' }]),
    control: ask({ kind: 'control' }, 'session.control', { answer: { target: 'reserve', actions: 'record-control' } }),
    reserve: ask({ kind: 'reserve' }, 'session.reserve', {
      answer: { target: 'judged', actions: ['record-reserve', 'complete-set'] },
    }),
    judged: decideBy([{ guard: has('asksSymptom'), target: 'choosing', actions: 'ask-symptom' }, { target: 'choosing' }]),
    closing: decideBy({ target: 'rating', actions: 'close-session' }),
    rating: decideBy([{ guard: has('asksEffort'), target: 'effort' }, { target: 'closed' }]),
    // The session is over and decided: whether this is answered changes no dose and holds up no alert.
    effort: ask({ kind: 'scale', least: 0, most: 10, mayBeSkipped: true }, 'session.effort', {
      answer: { target: 'closed', actions: 'record-effort' },
      stop: { target: 'closed', actions: 'ask-symptom' },
      'not-today': { target: 'closed', actions: 'record-effort' },
      close: 'closed',
    }),
    closed: final,
  },
  // Every state of version 1 is still there.
  migrate: (version, state) => (version === 1 ? state : null),
})
