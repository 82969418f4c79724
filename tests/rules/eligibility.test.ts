// Blood pressure limits follow Williams 2007 (AHA); the figure itself counts as above the limit, which is our choice. Age
// and condition lists: common practice, no source, for a clinician to review.
import { describe, expect, it } from 'vitest'
import type { Screening } from '#src/domain/plan.ts'
import { isLimited, refusals, type GateReason } from '#src/rules/eligibility.ts'
import { content, extensionPlan } from '../support/sample-chain.ts'

const { gates } = content.triage

function screening(changes: Partial<Screening>): Screening {
  return { ...extensionPlan.screening, ...changes }
}

const pressure = (systolic: number, diastolic: number): Partial<Screening> => ({ bloodPressure: { systolic, diastolic } })

describe('who is refused', () => {
  it.each<readonly [string, Partial<Screening>, readonly GateReason[]]>([
    ['nobody in good health', {}, []],
    ['15 years of age', { age: 15, hasGuardianConsent: true }, [{ kind: 'too-young', age: 15, limit: 16 }]],
    ['16 without a guardian', { age: 16 }, [{ kind: 'guardian-needed', age: 16, limit: 18 }]],
    ['not 16 with one', { age: 16, hasGuardianConsent: true }, []],
    ['17 without a guardian', { age: 17 }, [{ kind: 'guardian-needed', age: 17, limit: 18 }]],
    ['not 18', { age: 18 }, []],
    ['not 179/109', pressure(179, 109), []],
    ['180/80', pressure(180, 80), [{ kind: 'blood-pressure', systolic: 180, diastolic: 80 }]],
    ['120/110', pressure(120, 110), [{ kind: 'blood-pressure', systolic: 120, diastolic: 110 }]],
    ['not without a blood pressure', { bloodPressure: null }, []],
    ['a fracture within six months', { conditions: ['fracture-within-6-months'] }, [{ kind: 'condition', condition: 'fracture-within-6-months' }]],
    ['a dropped head with trouble swallowing or breathing', { conditions: ['dropped-head-swallowing-breathing'] }, [{ kind: 'condition', condition: 'dropped-head-swallowing-breathing' }]],
    ['untreated cord signs', { conditions: ['untreated-cord-signs'] }, [{ kind: 'condition', condition: 'untreated-cord-signs' }]],
    ['neck surgery without clearance', { conditions: ['neck-surgery'] }, [{ kind: 'surgeon-clearance-needed', condition: 'neck-surgery' }]],
    ['not neck surgery with clearance', { conditions: ['neck-surgery'], hasSurgeonClearance: true }, []],
    ['not osteoporosis, which limits', { conditions: ['osteoporosis'] }, []],
    [
      'everything at once, each named',
      { age: 15, ...pressure(185, 112), conditions: ['neck-surgery', 'untreated-cord-signs'] },
      [
        { kind: 'too-young', age: 15, limit: 16 },
        { kind: 'blood-pressure', systolic: 185, diastolic: 112 },
        { kind: 'surgeon-clearance-needed', condition: 'neck-surgery' },
        { kind: 'condition', condition: 'untreated-cord-signs' },
      ],
    ],
  ])('%s', (_, changes, expected) => {
    expect(refusals(screening(changes), gates)).toEqual(expected)
  })
})

describe('who has holds and band only', () => {
  it.each<readonly [string, Partial<Screening>, boolean]>([
    ['34 years of age', {}, false],
    ['64', { age: 64 }, false],
    ['65', { age: 65 }, true],
    ['159/99', pressure(159, 99), false],
    ['160/80', pressure(160, 80), true],
    ['120/100', pressure(120, 100), true],
    ['no blood pressure', { bloodPressure: null }, false],
    ['rheumatoid arthritis', { conditions: ['rheumatoid-arthritis'] }, true],
    ['ankylosing spondylitis', { conditions: ['ankylosing-spondylitis'] }, true],
    ['Down syndrome', { conditions: ['down-syndrome'] }, true],
    ['connective-tissue disease', { conditions: ['connective-tissue-disease'] }, true],
    ['osteoporosis', { conditions: ['osteoporosis'] }, true],
    ['pregnancy', { conditions: ['pregnancy'] }, true],
    ['glaucoma, which only rules out the bridge', { conditions: ['glaucoma'] }, false],
  ])('%s: %s', (_, changes, expected) => {
    expect(isLimited(screening(changes), gates)).toBe(expected)
  })
})
