// Sources: contraindications to resistance training, following Williams 2007, Circulation 116:572-584 [found]
// https://pmc.ncbi.nlm.nih.gov/articles/PMC10959113/table/t0001 , and the further list [found]
// https://care.diabetesjournals.org/highwire/markup/27132/expansion ; head-down positions with eye disease [memory:medium].
// After neck surgery: Coronado 2020 [found] https://journals.lww.com/spinejournal/Fulltext/2020/02150/ : no agreed week, so a
// surgeon's clearance counts. Dropped head [memory:high]. Instability: Finucane 2020 and Blanpied 2017, list [memory:high].
import { describe, expect, it } from 'vitest'
import type { Screening } from '#src/domain/plan.ts'
import { isLimited, refusals } from '#src/rules/eligibility.ts'
import { content } from '#tests/support/sample-chain.ts'

const { gates } = content.triage

function screened(changes: Partial<Screening>): Screening {
  return {
    age: 40,
    bloodPressure: null,
    conditions: [],
    hasSurgeonClearance: false,
    hasGuardianConsent: false,
    overrideReason: null,
    ...changes,
  }
}

describe('resistance training is refused', () => {
  it.each([
    ['a fracture under 6 months old', 'fracture-within-6-months'],
    ['a dropped head with trouble swallowing or breathing', 'dropped-head-swallowing-breathing'],
    ['cord signs that nobody has treated', 'untreated-cord-signs'],
  ])('after or with %s', (_, condition) => {
    expect(refusals(screened({ conditions: [condition] }), gates)).toEqual([{ kind: 'condition', condition }])
  })

  it('after neck surgery until a surgeon has cleared it, whatever the date', () => {
    const conditions = ['neck-surgery']
    const cleared = [false, true].map((hasSurgeonClearance) => refusals(screened({ conditions, hasSurgeonClearance }), gates))
    expect(cleared).toEqual([[{ kind: 'surgeon-clearance-needed', condition: 'neck-surgery' }], []])
  })
})

/** Absolute contraindications of the two lists; those of them that a gate of ours names. */
const absolute: Readonly<Record<string, string | null>> = {
  'unstable coronary disease': null,
  'decompensated heart failure': null,
  'uncontrolled arrhythmia': null,
  'severe pulmonary hypertension': null,
  'severe symptomatic valve stenosis': null,
  'acute inflammation of the heart': null,
  'aortic dissection': null,
  'known brain aneurysm': null,
  'recent brain bleed': null,
  'acute clot': null,
  'recent eye surgery': null,
  'uncontrolled systemic disease': null,
  'fracture under 6 months': 'fracture-within-6-months',
}

describe('the absolute contraindications (Williams 2007 and the further list)', () => {
  it('are refused where a gate names them; the others are the therapist’s to screen for before a plan is written', () => {
    const named = Object.values(absolute).filter((condition) => condition !== null)
    expect(named.filter((condition) => !gates.refusing.includes(condition))).toEqual([])
    // A gate more than here means that a row above has to name it.
    expect(gates.refusing.toSorted()).toEqual([...named, 'dropped-head-swallowing-breathing', 'untreated-cord-signs'].toSorted())
  })
})

describe('resistance training goes no further than holds and band', () => {
  it.each([
    'rheumatoid-arthritis',
    'ankylosing-spondylitis',
    'down-syndrome',
    'connective-tissue-disease',
    'osteoporosis',
  ])('with %s', (condition) => {
    expect(isLimited(screened({ conditions: [condition] }), gates)).toBe(true)
  })

  it.each([
    [64, false],
    [65, true],
  ])('at %i years: %s (Stiell 2001: 65 is a high-risk age)', (age, limited) => {
    expect(isLimited(screened({ age }), gates)).toBe(limited)
  })
})

describe('head-down positions', () => {
  it('are ruled out with glaucoma or a disease of the retina', () => {
    const bridge = [...content.exercises.values()].filter(({ id }) => id.includes('bridge'))
    expect(bridge.length).toBeGreaterThan(0)
    const open = bridge.filter(({ ruledOutBy }) => !gates.noBridge.every((condition) => ruledOutBy.contraindications.includes(condition)))
    expect(open).toEqual([])
    expect(gates.noBridge).toEqual(['glaucoma', 'retinal-disease'])
  })
})

// MRC grade 2 moves with gravity removed, 3 against it [memory:high].
describe('a neck that cannot lift the head against gravity', () => {
  it('gets the first rung of every ladder and no other until the therapist lets it go on', () => {
    const first = [...content.ladders.values()].filter(({ id }) => id !== 'deep-flexors').map(({ rungs }) => rungs[0]?.exercises ?? [])
    const exercises = first.flat().map((id) => content.exercises.get(id))
    expect(exercises.map((exercise) => [exercise?.isTherapistOnly, exercise?.needsApprovalToLeave, exercise?.isLoaded])).toEqual(
      exercises.map(() => [true, true, false]),
    )
  })
})
