// What format 1 kept by direction, as format 2 keeps it by ladder. Version 0.1.0 shipped the extension ladder alone; the sides
// are here so that the step holds for whatever a plan of that version could name.
export type Fields = Readonly<Record<string, unknown>>
export type Old = Fields

const ladders: Readonly<Record<string, readonly [ladder: string, side: 'left' | 'right' | null]>> = {
  extension: ['extension', null],
  flexion: ['flexion', null],
  'lateral-flexion-left': ['lateral-flexion', 'left'],
  'lateral-flexion-right': ['lateral-flexion', 'right'],
  'rotation-left': ['rotation', 'left'],
  'rotation-right': ['rotation', 'right'],
  'deep-flexors': ['deep-flexors', null],
}

/** A name that is no direction is a ladder's already. */
export function ladderOfOld(name: unknown): string {
  return ladders[String(name)]?.[0] ?? String(name)
}

export function ladderNames(names: unknown): readonly string[] {
  return [...new Set((names as readonly string[]).map(ladderOfOld))]
}

/** `direction` becomes `ladder`; what has one already stays. */
export function ladderIn(one: Old): Fields {
  if (!('direction' in one)) return one
  const { direction, ...rest } = one
  return { ladder: ladderOfOld(direction), ...rest }
}

/**
 * The places of a chain are worked out anew by what a version knows of loads, and what was told of the next dose was not stored.
 * So the session that waits for its morning leads to nothing beyond what was done in it.
 */
const stepsRenewed = { rule: 'steps-renewed', numbers: {} }

/** What is left of a session, direction by direction, brought together by ladder; the worse of two sides counts. */
export function bySides(directions: readonly Old[]): readonly Fields[] {
  const found = new Map<string, readonly Old[]>()
  for (const one of directions) {
    const ladder = ladderOfOld(one.direction)
    found.set(ladder, [...(found.get(ladder) ?? []), one])
  }
  return [...found].map(([ladder, sides]) => ({
    ladder,
    directions: sides.map((one) => one.direction),
    place: sides[0]?.place,
    sets: sides.flatMap(setsOf),
    isStopped: sides.some((one) => one.isStopped === true),
    isUnmeasuredEntry: sides.some((one) => one.isUnmeasuredEntry === true),
    gates: [...sides.flatMap((one) => one.gates), stepsRenewed],
    isReleased: sides.every((one) => one.isReleased === true),
    placed: null,
  }))
}

/** A set left out stays in its place: the numbers are those of the sets that were prescribed. */
function setsOf(one: Old): readonly Fields[] {
  const side = ladders[String(one.direction)]?.[1] ?? null
  return (one.reports as readonly unknown[]).map((report, index) => ({ side, number: index + 1, report }))
}
