import { ask, decideBy, defineFlow, final } from './define-flow.ts'
import { has, says } from './guards.ts'

/** Left before the week's pain is whole: what was said is judged all the same. */
const leftEarly = { target: 'closed', actions: 'judge-week' }

/**
 * Once a week: pain; every few weeks what the client can do, and whether the neck is better. Every answer is recorded when
 * it is given, and no question is asked twice. Facts: `isSevere`, `asksSymptom`, `areActivitiesDue`, `hasActivityToScore`,
 * `hasScored`, `mayNameAnother`, `isChangeDue`.
 */
export const weekly = defineFlow({
  id: 'weekly',
  version: 2,
  initial: 'now',
  safeState: 'now',
  on: { stop: 'closed', 'not-today': 'closed', close: 'closed' },
  // The first version asked for the average alone.
  migrate: (version, state) => (version === 1 && state === 'average' ? 'now' : null),
  states: {
    now: ask({ kind: 'pain' }, 'weekly.now', { answer: { target: 'now-judged', actions: 'record-week-now' } }),
    'now-judged': decideBy([{ guard: has('isSevere'), target: 'closed', actions: 'raise-severe-week' }, { target: 'best' }]),
    best: ask({ kind: 'pain', mayBeForgotten: true }, 'weekly.best', {
      answer: { target: 'worst', actions: 'record-week-best' },
      back: 'now',
      stop: leftEarly,
      'not-today': leftEarly,
    }),
    worst: ask({ kind: 'pain', mayBeForgotten: true }, 'weekly.worst', {
      answer: { target: 'week-judged', actions: ['record-week-worst', 'judge-week'] },
      back: 'best',
      stop: leftEarly,
      'not-today': leftEarly,
    }),
    'week-judged': decideBy([{ guard: has('asksSymptom'), target: 'activities-due', actions: 'ask-symptom' }, { target: 'activities-due' }]),
    'activities-due': decideBy([
      { guard: has('areActivitiesDue'), target: 'activity-due', actions: 'begin-activities' },
      { target: 'change-due' },
    ]),
    'activity-due': decideBy([
      { guard: has('hasActivityToScore'), target: 'score' },
      { guard: has('mayNameAnother'), target: 'activity' },
      { target: 'change-due' },
    ]),
    activity: ask({ kind: 'activity' }, 'weekly.activity', {
      answer: [{ guard: says(''), target: 'change-due' }, { target: 'activity-due', actions: 'name-activity' }],
    }),
    score: ask({ kind: 'scale', least: 0, most: 10, mayBeSkipped: true }, 'weekly.score', {
      answer: { target: 'activity-due', actions: 'record-activity-score' },
      back: { guard: has('hasScored'), target: 'score', actions: 'take-back-score' },
    }),
    'change-due': decideBy([{ guard: has('isChangeDue'), target: 'change', actions: 'begin-change' }, { target: 'closed', actions: 'thank' }]),
    change: ask(
      {
        kind: 'choice',
        options: [
          { value: 'better', words: 'weekly.change.better' },
          { value: 'same', words: 'weekly.change.same' },
          { value: 'worse', words: 'weekly.change.worse' },
        ],
      },
      'weekly.change',
      {
        answer: [
          { guard: says('same'), target: 'closed', actions: ['record-change', 'thank'] },
          { target: 'how-much', actions: 'record-change' },
        ],
      },
    ),
    'how-much': ask({ kind: 'scale', least: 1, most: 7, mayBeSkipped: true }, 'weekly.how-much', {
      answer: { target: 'closed', actions: ['record-how-much', 'thank'] },
      back: 'change',
    }),
    closed: final,
  },
})
