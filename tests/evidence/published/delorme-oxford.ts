// DeLorme 1945 and 1948, and its mirror image, Zinovieff 1951 (Oxford): ten repetitions at shares of the ten-repetition
// maximum [memory:high].

export function delorme(tenRepetitionMaximumKg: number): readonly number[] {
  return [0.5, 0.75, 1].map((share) => share * tenRepetitionMaximumKg)
}

export function oxford(tenRepetitionMaximumKg: number): readonly number[] {
  return delorme(tenRepetitionMaximumKg).toReversed()
}
