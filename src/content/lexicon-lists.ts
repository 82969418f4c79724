/** The ideas that every language must have words for; which of them together are a sign stands in `src/conversation`. */
export const lexiconLists = {
  /** Where on the body. */
  places: ['arm', 'both-arms', 'shoulder', 'leg', 'both-legs', 'face', 'half-body', 'one-side', 'saddle', 'head', 'neck',
    'trunk'],
  /** What is felt or has happened. `ache` is pain itself, which is no sign. */
  symptoms: [
    'ache', 'numb', 'weak', 'heavy', 'stroke', 'dropped', 'sight', 'speech', 'droop', 'spinning', 'dizzy', 'sick',
    'headache', 'thunderclap', 'chest', 'breathless', 'puffed', 'bladder', 'clumsy', 'shock', 'unsteady', 'wobbly-standing',
    'unlike-any', 'severe-pain', 'wound', 'weight-loss', 'night-pain', 'fever', 'stiff-neck', 'ill', 'poorly',
    'dangerous-blow', 'knock', 'ear-pulse', 'head-drop', 'self-harm', 'despair', 'being-hurt',
  ],
  /**
   * Words that people use when something is wrong, and that are no sign alone: where they stand outside everything that is
   * understood, the bot asks.
   */
  watched: ['watch-breath', 'watch-speech', 'watch-sight', 'watch-toilet', 'watch-clumsy', 'watch-arm'],
  /** What makes one sign of another. */
  cues: ['lasting', 'brief', 'slow', 'sudden', 'worst', 'severe', 'new-kind', 'at-rest', 'exertion', 'on-purpose'],
  /** Whether something is said to be so. */
  certainty: [
    'no-noun', 'not', 'not-a-denial', 'degree', 'degree-after', 'carrier', 'transparent', 'or', 'subject', 'first-person',
    'other-person', 'speaks-for', 'contrast', 'new-clause',
    'reason', 'denied-after', 'affirmed-after', 'gone-after', 'question', 'question-with-mark', 'what-if', 'past', 'any-more',
    'usual', 'all-well', 'harmless', 'doubtful', 'corrected', 'body-heat',
  ],
  /** Words of the answers. */
  replies: [
    'filler', 'fraction-after', 'out-of', 'scale', 'more-than', 'less-than', 'minus', 'other-number', 'number-suffix',
    'pain-label', 'reserve-label-after', 'reserve-label-before', 'no-pain', 'pain-except', 'no-reserve', 'steady', 'praise',
    'shaky', 'lost', 'moved', 'tells-no-control',
    'not-finished', 'a-little', 'mostly', 'unmoved', 'says-yes', 'says-no', 'agrees',
    'range', 'body-side', 'correction', 'same-as-before', 'stop-whole',
    'stop-anywhere', 'not-stop',
  ],
  commands: [
    'help', 'why', 'why-exactly', 'not-today', 'later', 'done', 'skip', 'ready', 'none', 'symptom', 'pause', 'change-times',
    'move-zone', 'write-therapist', 'withdraw',
  ],
} as const

/**
 * Words inside answers that have a form of their own: times, days, figures with a unit. They are read apart from all other
 * lists, so that a "to" or an "at" weighs nothing in a sentence. Names of weekdays are no part of it: the platform knows
 * them in every language.
 */
export const entryLists = [
  'every-day',
  /** Between two ends: "9 to 17", "Monday to Friday". */
  'span-word',
  /** Between the items of a list. */
  'and-word',
  /** Before a time, or before the second figure of a pair. */
  'at-word',
  /** After the hour, and says nothing: "18 h". */
  'hour-word',
  'half-day-am',
  'half-day-pm',
  /** From midnight on; with a 12 it may be noon or midnight, and is asked again. */
  'half-day-morning',
  /** Midnight is 12 at night, 1 to 5 are early, 6 to 11 late. */
  'half-day-night',
  /** Between the two figures of a blood pressure. */
  'over-word',
  /** Before the end of a scale: "7 out of 10". */
  'out-of-word',
  /** "2 of 1.25 kg" */
  'times-word',
  'newton-word', 'kilogram-word', 'pound-word', 'centimetre-word',
  /** What the length beside a force is. */
  'lever-word',
] as const

export type EntryList = (typeof entryLists)[number]

export type PlaceList = (typeof lexiconLists)['places'][number]
export type WatchList = (typeof lexiconLists)['watched'][number]
export type SymptomList = (typeof lexiconLists)['symptoms'][number]
export type CueList = (typeof lexiconLists)['cues'][number]
export type LexiconList = {
  [Section in keyof typeof lexiconLists]: (typeof lexiconLists)[Section][number]
}[keyof typeof lexiconLists]
