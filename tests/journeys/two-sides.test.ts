// A session of several directions, as the client reads it.
import { describe, expect, it } from 'vitest'
import { JoinedClinic } from '#tests/support/joined-clinic.ts'
import { allDirectionsPlan } from '#tests/support/sample-chain.ts'

function trained(): JoinedClinic {
  const clinic = new JoinedClinic({ plan: allDirectionsPlan })
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.begin()
  while (clinic.asks === 'session.set') clinic.doSet()
  return clinic
}

describe('the second side', () => {
  it('is told in short, after a rest, with left and right swapped', () => {
    const texts = trained().client.messages.map(({ text }) => text)
    const first = texts.find((text) => /Set 1 of 3 – .*, left/.test(text)) ?? ''
    const second = texts.find((text) => /Set 1 of 3 – .*, right/.test(text)) ?? ''
    expect([first.includes('Set up'), second.includes('Set up')]).toEqual([true, false])
    expect(second.split('\n').slice(0, 3)).toEqual([
      'Now the right side. Do it just the same way, with left and right swapped.',
      'Rest for 60 seconds first.',
      'Set 1 of 3 – side press, right: 5 holds of 5 seconds, push 3 out of 10',
    ])
  })
})

describe('what comes next', () => {
  it('is not taken for today’s exercises where the others have their turn', () => {
    const summary = trained().client.messages.find(({ text }) => text.startsWith('That was your session'))?.text ?? ''
    expect(summary.split('\n').find((line) => line.startsWith('Next session'))).toBe(
      'Next session: Wed 7 Jan, 18:00. Then it is the turn of: deep neck flexors, turning. If tomorrow morning is bad, I will make it easier.',
    )
  })
})
