// The walk from every start, made once for all tests that look at it.
import { waysTaken } from './count-ways.ts'
import { allStarts } from './starts.ts'
import { walk } from './walk.ts'

export const walked = walk(Object.values(allStarts).map((start) => start()))
/** What the walk took, and nothing that a test has done since. */
export const waysOfWalk = new Set(waysTaken)
