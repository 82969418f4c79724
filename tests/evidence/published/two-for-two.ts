// The 2-for-2 rule: two repetitions or more above the goal in the last set, in two sessions running, then more load.
// Graves and Baechle; NSCA [found-2nd].

/** Whether the load may rise next session: repetitions of the last set, session by session, the newest last. */
export function mayRaise(goal: number, lastSets: readonly number[]): boolean {
  const [before, last] = lastSets.slice(-2)
  return before !== undefined && last !== undefined && Math.min(before, last) >= goal + 2
}
