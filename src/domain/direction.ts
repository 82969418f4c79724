/** The directions the neck is trained in. The two sides are two directions. */
export const directions = [
  'extension',
  'flexion',
  'lateral-flexion-left',
  'lateral-flexion-right',
  'rotation-left',
  'rotation-right',
  'deep-flexors',
] as const

export type Direction = (typeof directions)[number]
