/** The ideas that every language must have words for; which of them together are a sign stands in `src/conversation`. */
export const lexiconLists = {
  /** Where on the body. */
  places: ['arm', 'both-arms', 'shoulder', 'leg', 'both-legs', 'face', 'half-body', 'one-side', 'saddle', 'head', 'neck',
    'trunk'],
  /** What is felt or has happened. `ache` is pain itself, which is no sign. */
  symptoms: [
    'ache', 'numb', 'weak', 'heavy', 'stroke', 'dropped', 'sight', 'speech', 'droop', 'spinning', 'dizzy', 'sick',
    'headache', 'thunderclap', 'chest', 'breathless', 'puffed', 'bladder', 'clumsy', 'shock', 'unsteady', 'wobbly-standing',
    'unlike-any', 'severe-pain', 'watch-breath', 'watch-speech', 'watch-sight',
    'watch-toilet', 'watch-clumsy', 'watch-arm', 'wound', 'weight-loss', 'night-pain', 'fever', 'stiff-neck', 'ill', 'poorly',
    'dangerous-blow', 'knock', 'self-harm', 'despair', 'being-hurt',
  ],
  /** What makes one sign of another. */
  cues: ['lasting', 'brief', 'slow', 'sudden', 'worst', 'severe', 'new-kind', 'at-rest', 'exertion', 'on-purpose'],
  /** Whether something is said to be so. */
  certainty: [
    'no-noun', 'not', 'not-a-denial', 'degree', 'carrier', 'transparent', 'or', 'subject', 'first-person',
    'other-person', 'contrast',
    'reason', 'denied-after', 'affirmed-after', 'gone-after', 'question', 'question-with-mark', 'what-if', 'past', 'any-more',
    'usual', 'all-well', 'harmless', 'doubtful', 'corrected',
  ],
  /** Words of the answers. */
  replies: [
    'filler', 'fraction-after', 'out-of', 'scale', 'more-than', 'less-than', 'minus', 'other-number', 'number-suffix',
    'pain-label', 'reserve-label-after', 'reserve-label-before', 'no-pain', 'pain-except', 'no-reserve', 'steady', 'praise',
    'shaky', 'lost', 'moved', 'tells-no-control',
    'not-finished', 'a-little', 'mostly', 'unmoved', 'says-yes', 'says-no', 'agrees',
    'range', 'body-side', 'correction', 'stop-whole',
    'stop-anywhere', 'not-stop',
  ],
  commands: [
    'help', 'why', 'why-exactly', 'not-today', 'later', 'done', 'skip', 'ready', 'none', 'symptom', 'pause', 'change-times',
    'move-zone', 'write-therapist', 'withdraw',
  ],
} as const

export type PlaceList = (typeof lexiconLists)['places'][number]
export type SymptomList = (typeof lexiconLists)['symptoms'][number]
export type CueList = (typeof lexiconLists)['cues'][number]
export type LexiconList = {
  [Section in keyof typeof lexiconLists]: (typeof lexiconLists)[Section][number]
}[keyof typeof lexiconLists]
