// The same input gives the same output, and what comes out survives being written and read as JSON.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { play } from '../support/rehearsed.ts'
import { parameters, seed, timeoutMs } from './runs.ts'
import { anyCase, anyFlaggedScript } from './scripts.ts'

describe(`a rehearsal (seed ${seed})`, () => {
  it('gives the same twice, of copies too, and is plain JSON', { timeout: timeoutMs }, () => {
    fc.assert(
      fc.property(anyCase(anyFlaggedScript({ mostGood: 10, most: 8 })), ({ plan, script }) => {
        const first = play(plan, script)
        // Copies share no object with the first, so that nothing remembered about one can answer for the other.
        const again = play(structuredClone(plan), structuredClone(script))
        expect(again).toEqual(first)
        expect(JSON.parse(JSON.stringify(first))).toStrictEqual(first)
      }),
      parameters(8, 0.1),
    )
  })

  it('does not depend on what was rehearsed before', { timeout: timeoutMs }, () => {
    fc.assert(
      fc.property(anyCase(anyFlaggedScript({ mostGood: 4, most: 5 })), anyFlaggedScript({ mostGood: 4, most: 5 })(['extension']), ({ plan, script }, other) => {
        const alone = play(plan, script)
        play(plan, other)
        expect(play(plan, script)).toEqual(alone)
      }),
      parameters(5, 0.1),
    )
  })

  it('of the first sessions is the beginning of that of all of them', { timeout: timeoutMs }, () => {
    fc.assert(
      fc.property(anyCase(anyFlaggedScript({ mostGood: 6, most: 8 })), fc.nat(), ({ plan, script }, nat) => {
        const length = nat % script.sessions.length
        const whole = play(plan, script).slice(0, length)
        // The last one's alerts may still grow and its decision may become final: what comes after is not yet known.
        const part = play(plan, { ...script, sessions: script.sessions.slice(0, length) })
        expect(part.map(({ prescription, sets }) => ({ prescription, sets }))).toEqual(whole.map(({ prescription, sets }) => ({ prescription, sets })))
      }),
      parameters(8, 0.1),
    )
  })
})
