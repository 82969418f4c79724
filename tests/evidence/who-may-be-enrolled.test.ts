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

/** Absolute contraindications of the two lists, and the gate of ours that names each; one gate may name several. */
const absolute: Readonly<Record<string, string>> = {
  'unstable coronary disease': 'unstable-heart-or-vessel-disease',
  'decompensated heart failure': 'unstable-heart-or-vessel-disease',
  'uncontrolled arrhythmia': 'unstable-heart-or-vessel-disease',
  'severe pulmonary hypertension': 'unstable-heart-or-vessel-disease',
  'severe symptomatic valve stenosis': 'unstable-heart-or-vessel-disease',
  'acute inflammation of the heart': 'unstable-heart-or-vessel-disease',
  'Marfan syndrome': 'unstable-heart-or-vessel-disease',
  'aortic dissection': 'unstable-heart-or-vessel-disease',
  'known brain aneurysm': 'brain-aneurysm-or-recent-bleed',
  'recent brain bleed': 'brain-aneurysm-or-recent-bleed',
  'acute clot': 'acute-clot',
  'recent eye surgery': 'recent-eye-surgery',
  'uncontrolled systemic disease': 'uncontrolled-systemic-disease',
  'fracture under 6 months': 'fracture-within-6-months',
}

describe('the absolute contraindications (Williams 2007 and the further list)', () => {
  it('are refused, every one', () => {
    const named = [...new Set(Object.values(absolute))]
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
