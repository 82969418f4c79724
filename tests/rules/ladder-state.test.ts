import { expect, it } from 'vitest'
import { newLadderState } from '#src/rules/ladder-state.ts'
import { chainFor, extensionPlan, placeNamed } from '../support/sample-chain.ts'

it('a ladder that was never trained has its place and nothing else', () => {
  const place = placeNamed(chainFor(extensionPlan), '3 3 × 8, 17.9 N')
  expect(newLadderState(place)).toEqual({
    place,
    runs: { amber: 0, red: 0, badMornings: 0, lowestDose: 0 },
    lastTrained: null,
    rungs: {},
    recent: [],
    sessionsWithoutProgress: 0,
    isHeld: false,
  })
})
