import type { AlertLevel } from '#src/domain/triage.ts'

/**
 * The signs that outrank training, worst level first. The list and its levels are our choice, a synthesis that a clinician
 * signs (content/triage.yaml holds the same ids); it draws on the IFOMPT framework (Rushton 2020), the "5 Ds, 3 Ns", the
 * Canadian C-spine rule (Stiell 2001) and the red-flag framework of Finucane 2020.
 */
export const signLevels = {
  'face-or-half-body-numbness': 'emergency',
  'sudden-weakness': 'emergency',
  'drop-attack': 'emergency',
  'vision-loss-or-double': 'emergency',
  'speech-or-swallowing': 'emergency',
  'face-droop': 'emergency',
  'spinning-lasting': 'emergency',
  'sudden-worst-headache': 'emergency',
  'chest-pain-or-breathless': 'emergency',
  'saddle-bladder-bowel': 'emergency',
  'fever-stiff-neck': 'emergency',
  'head-dropping': 'emergency',
  'dangerous-trauma': 'emergency',
  'self-harm': 'emergency',
  'being-hurt': 'emergency',
  'arm-numbness': 'urgent',
  'slow-weakness': 'urgent',
  'clumsy-hands': 'urgent',
  'electric-shock': 'urgent',
  'unsteady-walking': 'urgent',
  'light-headed': 'urgent',
  'pain-unlike-any': 'urgent',
  'pulsing-ear-noise': 'urgent',
  'other-trauma': 'urgent',
  'wound-change': 'urgent',
  'severe-pain-now': 'urgent',
  'two-illness-signs': 'urgent',
  /** No phrase of a sign: words that sound like one, or what a client calls wrong and finds on no list. */
  'something-else': 'urgent',
  'weight-loss': 'routine',
  'night-pain': 'routine',
  fever: 'routine',
  'feeling-ill': 'routine',
} as const satisfies Record<string, AlertLevel>

export type SignName = keyof typeof signLevels

/** In the order of the list: worst level first. */
export const signNames = Object.keys(signLevels) as readonly SignName[]
