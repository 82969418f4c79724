// Levels and times of the triage content against the lists they are drawn from. Arteries of the neck: Rushton 2020, list
// [memory:medium]. Dropped head: the questions that go with it [memory:high]. Past cancer and the other signs of serious
// disease: Finucane 2020, list [memory:high]; that signs are judged together [found]
// https://www.eurekalert.org/news-releases/904355 . The tiers are a synthesis of ours [convention]. The level of each sign is
// our choice; what is checked is that a sign of a list is there, is asked about, and weighs no less than its tier.
import { describe, expect, it } from 'vitest'
import { mayBeKnown } from '#src/domain/triage.ts'
import { isLimited, refusals } from '#src/rules/eligibility.ts'
import { graverTogether } from '#src/rules/graver-together.ts'
import { content, extensionPlan } from '#tests/support/sample-chain.ts'

const { triage } = content

function sign(id: string) {
  const found = triage.signs.find((one) => one.id === id)
  if (!found) throw new Error(`no sign ${id}`)
  return found
}

describe('early signs of the arteries of the neck (Rushton 2020)', () => {
  it.each([
    ['pulsing-ear-noise', 'urgent', 'headache'],
    ['pain-unlike-any', 'urgent', 'headache'],
    ['face-droop', 'emergency', 'dizziness-face'],
  ])('%s is %s and is asked with %s', (id, level, group) => {
    expect(sign(id)).toMatchObject({ level, group })
  })
})

describe('a head that drops', () => {
  it('is an emergency when new, is asked about, and is never taken for long-standing', () => {
    const one = sign('head-dropping')
    expect([one.level, triage.groups.includes(one.group), mayBeKnown(one, triage)]).toEqual(['emergency', true, false])
  })
})

describe('past cancer (Finucane 2020)', () => {
  const screening = { ...extensionPlan.screening, conditions: ['past-cancer'] }

  it('is asked about at enrolment, and alone refuses nobody and limits nobody', () => {
    expect(triage.gates.noted).toContain('past-cancer')
    expect([refusals(screening, triage.gates), isLimited(screening, triage.gates)]).toEqual([[], false])
  })

  it('makes each of the listed signs of general illness a matter of the same day', () => {
    const weighed = ['weight-loss', 'night-pain', 'fever', 'feeling-ill'].map((id) => graverTogether(flagOf(id), [], screening.conditions, triage.illness).level)
    expect(weighed).toEqual(['urgent', 'urgent', 'urgent', 'urgent'])
  })
})

describe('signs of general illness (Finucane 2020: judge them together)', () => {
  const { signs } = triage.illness
  const pairs = signs.flatMap((one) => signs.filter((other) => other !== one).map((other) => [one, other] as const))

  it.each(pairs)('%s after %s is a matter of the same day', (one, other) => {
    expect(graverTogether(flagOf(one), [other], [], triage.illness).level).toBe('urgent')
  })
})

function flagOf(id: string) {
  const { level } = sign(id)
  return { sign: sign(id).id, level }
}

describe('the tier of routine review', () => {
  it('begins beyond day seven of soreness, at two missed weeks and at six weeks without a step up', () => {
    expect(triage.routine).toEqual({ sorenessPastDays: 7, noStepUpDays: 42 })
    const missed = [...content.protocols.values()].map(({ absence }) => absence.easeAfterDays)
    expect(missed.filter((days) => days > 14)).toEqual([])
  })

  it('comes again in full with the screen every four weeks and after more than two weeks off', () => {
    expect(triage.screen).toEqual({ fullEveryDays: 28, fullAfterDaysOff: 14 })
  })
})
