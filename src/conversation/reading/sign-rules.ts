import type { CueList, PlaceList, SymptomList, WatchList } from '#src/content/lexicon.ts'
import type { SignName } from './signs.ts'

/** What stands with a symptom: a place in the same clause, a cue in the same sentence, or no place at all. */
export type Companion = PlaceList | CueList | 'nowhere'

export interface SignRule {
  readonly sign: SignName
  readonly with?: readonly Companion[]
  readonly without?: readonly Companion[]
  /** Too vague to alarm at once: the bot asks. */
  readonly isPossible?: true
}

const limbs = ['arm', 'both-arms', 'leg', 'both-legs'] as const
const emergencyHeadache = ['worst', 'sudden'] as const

/**
 * Which sign a symptom is, by where and how. Every rule that fits counts. Numb legs on both sides go with the saddle sign:
 * both belong to the cord and cauda equina group of Finucane 2020.
 */
export const signRules: Readonly<Record<SymptomList, readonly SignRule[]>> = {
  ache: [
    { sign: 'pain-unlike-any', with: ['new-kind'] },
    // "Worse than ever" is both.
    { sign: 'severe-pain-now', with: ['worst', 'severe'] },
  ],
  numb: [
    { sign: 'face-or-half-body-numbness', with: ['face'] },
    { sign: 'face-or-half-body-numbness', with: ['half-body'] },
    // "My hand is numb on the left side" is of the hand.
    { sign: 'face-or-half-body-numbness', with: ['one-side'], without: ['neck', 'trunk', 'arm', 'leg'] },
    { sign: 'face-or-half-body-numbness', with: ['arm', 'leg'] },
    { sign: 'face-or-half-body-numbness', with: ['head'], isPossible: true },
    { sign: 'saddle-bladder-bowel', with: ['saddle'] },
    { sign: 'saddle-bladder-bowel', with: ['both-legs'] },
    { sign: 'clumsy-hands', with: ['both-arms'] },
    // Both hands are the sign of the hands alone, and an arm with the face is that of half the body.
    { sign: 'arm-numbness', with: ['arm'], without: ['both-arms', 'face', 'half-body'] },
    { sign: 'arm-numbness', with: ['arm', 'one-side'], without: ['face', 'half-body'] },
    // "Numb from the hips down" is of the legs.
    ...(['shoulder', 'neck', 'trunk', 'nowhere'] as const)
      .map((place): SignRule => ({ sign: 'arm-numbness', with: [place], without: ['both-arms', 'both-legs', 'saddle', 'face', 'half-body'] })),
    // Both legs are the saddle sign alone.
    { sign: 'arm-numbness', with: ['leg'], without: ['both-legs'] },
  ],
  weak: [
    ...limbs.flatMap((limb): readonly SignRule[] => [
      // "Weakness that the client cannot call slow" is an emergency.
      { sign: 'sudden-weakness', with: [limb], without: ['slow'] },
      { sign: 'sudden-weakness', with: [limb, 'slow', 'sudden'] },
      { sign: 'slow-weakness', with: [limb, 'slow'], without: ['sudden'] },
    ]),
    { sign: 'sudden-weakness', with: ['half-body'] },
    { sign: 'face-droop', with: ['face'] },
    // One side of the neck is often the weaker one.
    { sign: 'sudden-weakness', with: ['one-side'], without: [...limbs, 'neck'], isPossible: true },
    { sign: 'slow-weakness', with: ['shoulder', 'slow'], without: ['sudden', ...limbs] },
    { sign: 'sudden-weakness', with: ['shoulder'], without: [...limbs, 'slow'], isPossible: true },
    { sign: 'sudden-weakness', with: ['shoulder', 'slow', 'sudden'], without: limbs, isPossible: true },
    // What grows weaker week by week is told of limbs that were named before, or of the whole body: both need seeing to.
    { sign: 'slow-weakness', with: ['nowhere', 'slow'], without: ['sudden'] },
    { sign: 'feeling-ill', with: ['nowhere'], isPossible: true },
  ],
  heavy: [...limbs, 'half-body' as const].flatMap((place): readonly SignRule[] => [
    { sign: 'sudden-weakness', with: [place, 'sudden'] },
    { sign: 'sudden-weakness', with: [place], isPossible: true },
  ]),
  stroke: [{ sign: 'sudden-weakness' }],
  dropped: [{ sign: 'drop-attack' }],
  sight: [{ sign: 'vision-loss-or-double' }],
  speech: [{ sign: 'speech-or-swallowing' }],
  droop: [{ sign: 'face-droop' }],
  spinning: [
    { sign: 'spinning-lasting', without: ['brief'] },
    { sign: 'light-headed', with: ['brief'] },
  ],
  dizzy: [
    { sign: 'spinning-lasting', with: ['lasting'] },
    { sign: 'light-headed', without: ['lasting'] },
  ],
  sick: [{ sign: 'light-headed' }],
  headache: [
    ...emergencyHeadache.map((cue): SignRule => ({ sign: 'sudden-worst-headache', with: [cue] })),
    { sign: 'pain-unlike-any', with: ['new-kind'], without: emergencyHeadache },
    { sign: 'pain-unlike-any', with: ['severe'], without: [...emergencyHeadache, 'new-kind'] },
    { sign: 'pain-unlike-any', without: [...emergencyHeadache, 'new-kind', 'severe'], isPossible: true },
  ],
  thunderclap: [{ sign: 'sudden-worst-headache' }],
  chest: [{ sign: 'chest-pain-or-breathless' }],
  breathless: [
    { sign: 'chest-pain-or-breathless', without: ['exertion'] },
    { sign: 'chest-pain-or-breathless', with: ['exertion'], isPossible: true },
  ],
  puffed: [
    { sign: 'chest-pain-or-breathless', with: ['at-rest'] },
    { sign: 'chest-pain-or-breathless', without: ['at-rest'], isPossible: true },
  ],
  bladder: [{ sign: 'saddle-bladder-bowel' }],
  clumsy: [{ sign: 'clumsy-hands' }],
  shock: [{ sign: 'electric-shock' }],
  unsteady: [{ sign: 'unsteady-walking' }],
  'wobbly-standing': [{ sign: 'unsteady-walking', isPossible: true }],
  'unlike-any': [
    { sign: 'pain-unlike-any' },
    ...emergencyHeadache.map((cue): SignRule => ({ sign: 'sudden-worst-headache', with: ['head', cue] })),
  ],
  // "It hurts a lot" may answer what was asked of pain; "unbearable" is told of its own accord.
  'severe-pain': [{ sign: 'severe-pain-now', with: ['severe'] }],
  wound: [{ sign: 'wound-change' }],
  'weight-loss': [
    { sign: 'weight-loss', without: ['on-purpose'] },
    { sign: 'weight-loss', with: ['on-purpose'], isPossible: true },
  ],
  'night-pain': [{ sign: 'night-pain' }],
  fever: [{ sign: 'fever' }],
  'stiff-neck': [],
  ill: [{ sign: 'feeling-ill' }],
  poorly: [{ sign: 'feeling-ill', isPossible: true }],
  'dangerous-blow': [{ sign: 'dangerous-trauma' }],
  knock: [{ sign: 'other-trauma' }],
  'ear-pulse': [{ sign: 'pulsing-ear-noise' }],
  'head-drop': [{ sign: 'head-dropping' }],
  'self-harm': [{ sign: 'self-harm' }],
  despair: [{ sign: 'self-harm', isPossible: true }],
  'being-hurt': [{ sign: 'being-hurt' }],
}

export const symptomLists = Object.keys(signRules) as readonly SymptomList[]

/** Which sign the bot asks about where a word is said that is none alone, outside everything that is understood. */
export const watchedFor: Readonly<Record<WatchList, SignName>> = {
  'watch-breath': 'chest-pain-or-breathless',
  'watch-speech': 'speech-or-swallowing',
  'watch-sight': 'vision-loss-or-double',
  'watch-toilet': 'saddle-bladder-bowel',
  'watch-clumsy': 'clumsy-hands',
  'watch-arm': 'arm-numbness',
}
export const watchLists = Object.keys(watchedFor) as readonly WatchList[]

const isPlace: Readonly<Record<PlaceList, true>> = {
  arm: true, 'both-arms': true, shoulder: true, leg: true, 'both-legs': true, face: true, 'half-body': true,
  'one-side': true, saddle: true, head: true, neck: true, trunk: true,
}
export const placeLists = Object.keys(isPlace) as readonly PlaceList[]

const isCue: Readonly<Record<CueList, true>> = {
  lasting: true, brief: true, slow: true, sudden: true, worst: true, severe: true, 'new-kind': true, 'at-rest': true,
  exertion: true, 'on-purpose': true,
}
export const cueLists = Object.keys(isCue) as readonly CueList[]
