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

/** What climbs as one: a direction, or the two sides of a movement, which have one ladder and one state. */
export const ladderIds = ['extension', 'flexion', 'lateral-flexion', 'rotation', 'deep-flexors'] as const
export type LadderId = (typeof ladderIds)[number]

export const sides = ['left', 'right'] as const
export type Side = (typeof sides)[number]

const ladders: Record<Direction, { readonly ladder: LadderId; readonly side: Side | null }> = {
  extension: { ladder: 'extension', side: null },
  flexion: { ladder: 'flexion', side: null },
  'lateral-flexion-left': { ladder: 'lateral-flexion', side: 'left' },
  'lateral-flexion-right': { ladder: 'lateral-flexion', side: 'right' },
  'rotation-left': { ladder: 'rotation', side: 'left' },
  'rotation-right': { ladder: 'rotation', side: 'right' },
  'deep-flexors': { ladder: 'deep-flexors', side: null },
}

export function ladderOf(direction: Direction): LadderId {
  return ladders[direction].ladder
}

export function sideOf(direction: Direction): Side | null {
  return ladders[direction].side
}

/** One direction, or the left and then the right side. */
export function directionsOf(ladder: LadderId): readonly Direction[] {
  return directions.filter((direction) => ladders[direction].ladder === ladder)
}
