import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { loadContent } from '#src/content/load-content.ts'
import { readPlan } from '#src/content/read-plan.ts'
import type { Plan } from '#src/domain/plan.ts'
import { copyContent, lineIn, problemsOf, shippedContent } from '#tests/support/content-copy.ts'

const folder = mkdtempSync(join(tmpdir(), 'nuchal-'))
afterAll(() => rmSync(folder, { recursive: true }))
const content = loadContent(copyContent(folder).root)
const shippedPlan = readFileSync(join(shippedContent, 'plans/extension.yaml'), 'utf8')

/** The shipped plan with one text replaced by another. */
function planWith(...changes: readonly (readonly [from: string, to: string])[]): string {
  return changes.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`"${from}" stands nowhere`)
    return text.replace(from, () => to)
  }, shippedPlan)
}

function range(count: number): readonly number[] {
  return Array.from({ length: count }, (_, index) => index + 1)
}

function problemsIn(text: string) {
  return problemsOf(() => readPlan(text, 'plan.yaml', content))
}

describe('the shipped plan', () => {
  it('is read whole', () => {
    const plan = readPlan(shippedPlan, 'plan.yaml', content)
    expect(plan).toEqual({
      client: { name: 'Orla Tiernan', language: 'en' },
      zone: 'Europe/Dublin',
      emergencyNumber: '112',
      outOfHoursNumber: '020 913 0104',
      protocol: 'novice',
      usualPain: 1,
      schedule: { days: ['mon', 'wed', 'fri'], time: '18:00', quiet: { from: '21:00', to: '08:00' } },
      equipment: {
        platesKg: [0.25, 0.25, 0.5, 0.5, 1, 1, 1.25, 1.25, 2.5, 2.5],
        harnessKg: 0.4,
        bands: [
          { id: 'light', points: [{ stretchCm: 10, forceN: 8 }, { stretchCm: 60, forceN: 24 }] },
          { id: 'medium', points: [{ stretchCm: 10, forceN: 14 }, { stretchCm: 60, forceN: 42 }] },
        ],
        hasSupport: true,
        stepCm: 30,
      },
      screening: {
        age: 34,
        bloodPressure: { systolic: 122, diastolic: 78 },
        conditions: [],
        hasSurgeonClearance: false,
        hasGuardianConsent: false,
        overrideReason: null,
      },
      knownSigns: [],
      restrictions: [],
      contraindications: [],
      ladders: [{ direction: 'extension', rung: 2, maxRung: 5, shown: ['seated-hold-two-hands'] }],
      measurements: [{ direction: 'extension', force: 120, unit: 'N', leverCm: null, on: null }],
      contacts: { therapist: { name: 'Maren Holt' }, second: { name: 'Idris Vane' } },
    } as unknown as Plan)
  })
})

describe('a plan', () => {
  it('may leave out what it has none of', () => {
    const text = planWith(
      ['known_signs: []\nrestrictions: []\ncontraindications: []\n', ''],
      [shippedPlan.slice(shippedPlan.indexOf('measurements:'), shippedPlan.indexOf('contacts:')), ''],
      [shippedPlan.slice(shippedPlan.indexOf('  plates_kg:'), shippedPlan.indexOf('screening:')), '  plates_kg: []\n'],
      ['usual_pain: 1\n', ''],
    )
    const { equipment, knownSigns, restrictions, contraindications, measurements, usualPain } = readPlan(text, 'plan.yaml', content)
    expect({ equipment, knownSigns, restrictions, contraindications, measurements, usualPain }).toEqual({
      equipment: { platesKg: [], harnessKg: null, bands: [], hasSupport: false, stepCm: null },
      knownSigns: [],
      restrictions: [],
      contraindications: [],
      measurements: [],
      usualPain: 0,
    })
  })

  it('may name its zone as people do, and keeps the name of the database', () => {
    expect(readPlan(planWith(['Europe/Dublin', 'dublin']), 'plan.yaml', content).zone).toBe('Europe/Dublin')
  })

  it('may start a client with a limited shoulder on the one-hand hold', () => {
    const text = planWith(
      ['restrictions: []', 'restrictions: [shoulder-left-limited]'],
      ['shown: [seated-hold-two-hands]', 'shown: [seated-hold-one-hand]'],
    )
    expect(problemsIn(text)).toEqual([])
  })

  it.each([
    ['usual_pain: 1', ['usual_pain: 0', 'usual_pain: 10'], ['usual_pain: -1', 'usual_pain: 11', 'usual_pain: 1.5']],
    ['[0.25, 0.25,', ['[0.1, 0.25,', '[20, 0.25,'], ['[0.09, 0.25,', '[20.1, 0.25,']],
    ['harness_kg: 0.4', ['harness_kg: 0.05', 'harness_kg: 2', 'harness_kg: null'], ['harness_kg: 0.04', 'harness_kg: 2.1']],
    ['step_cm: 30', ['step_cm: 5', 'step_cm: 60'], ['step_cm: 4.9', 'step_cm: 60.1']],
    ['stretch_cm: 10, force_n: 8', ['stretch_cm: 10, force_n: 0.5'], ['stretch_cm: 10, force_n: 0.4', 'stretch_cm: -1, force_n: 8']],
    ['stretch_cm: 60, force_n: 42', ['stretch_cm: 60, force_n: 200'], ['stretch_cm: 60, force_n: 200.1']],
    ['time: "18:00"', ['time: "08:00"', 'time: "20:59"'], ['time: "07:59"', 'time: "21:00"', 'time: "24:00"', 'time: "9:00"', 'time: "18:60"', 'time: 18:00:00', 'time: 1800']],
    ['days: [mon, wed, fri]', ['days: [sun]'], ['days: []', 'days: [mon, mon]', 'days: [monday]']],
    // 1500 N are 152.957 kgf and 337.213 lbf (standard gravity and the pound are exact by definition).
    ['force: 120, unit: N', ['force: 1, unit: N, confirmed: true', 'force: 1500, unit: N'], ['force: 0.9, unit: N', 'force: 1500.1, unit: N']],
    ['force: 120, unit: N', ['force: 152.95, unit: kgf, confirmed: true'], ['force: 152.96, unit: kgf', 'force: 0.1, unit: kgf']],
    ['force: 120, unit: N', ['force: 337.21, unit: lbf, confirmed: true'], ['force: 337.22, unit: lbf', 'force: 120, unit: kg']],
    ['lever_cm: null, on: null', ['lever_cm: 16, on: 2026-02-28'], ['lever_cm: 16, on: 2026-02-30', 'lever_cm: 16, on: last week', 'lever_cm: 0, on: null']],
    ['emergency_number: "112"', ['emergency_number: "+353 1 555 0100"'], ['emergency_number: 112', 'emergency_number: "call me"', 'emergency_number: ""']],
    ['blood_pressure: { systolic: 122, diastolic: 78 }', ['blood_pressure: null'], ['blood_pressure: { systolic: 78, diastolic: 122 }', 'blood_pressure: 122/78']],
  ])('keeps its limits: %s', (from, inside, outside) => {
    const isRefused = (to: string): boolean => problemsIn(planWith([from, to])).length > 0
    expect(inside.filter(isRefused)).toEqual([])
    expect(outside.filter((to) => !isRefused(to))).toEqual([])
  })
})

describe('a mistake in a plan', () => {
  const start = { path: 'ladders[0].rung', at: '{ direction: extension' }
  const otherRung = 'Start on another rung, or mend the equipment, the restrictions or the screening.'
  const closed = (why: string) => ({ ...start, message: `is closed to this client: ${why}`, mend: otherRung })

  it.each([
    {
      title: 'broken YAML',
      changes: [['zone: Europe/Dublin', 'zone: [Europe/Dublin']],
      expected: { path: '', at: 'emergency_number', message: 'is not valid YAML: it is indented wrongly, or has a bracket that is not closed', mend: 'Look at the indentation, colons, quotes and brackets of this line and the one above.' },
    },
    {
      title: 'an unknown key',
      changes: [['support: true', 'suport: true']],
      expected: { path: 'equipment.suport', at: 'suport', message: 'is no known key here', mend: 'Remove it, or mend its spelling.' },
    },
    {
      title: 'a missing key',
      changes: [['protocol: novice\n', '']],
      expected: { path: 'protocol', at: 'client:', message: 'is missing', mend: 'Add it: text.' },
    },
    {
      title: 'a number that should be text',
      changes: [['"112"', '112']],
      expected: { path: 'emergency_number', at: 'emergency_number', message: 'must be text', mend: 'Put it in quotes.' },
    },
    {
      title: 'a wrong time',
      changes: [['"21:00"', '"9pm"']],
      expected: { path: 'schedule.quiet.from', at: '"9pm"', message: 'must be a time of day', mend: 'Write it as "HH:MM" in 24 hours, in quotes, e.g. "18:00".' },
    },
    {
      title: 'a zone abbreviated',
      changes: [['Europe/Dublin', 'CET']],
      expected: { path: 'zone', at: 'zone:', message: 'is an abbreviation, which does not say when the clocks change', mend: 'Write area and city, e.g. Europe/Dublin.' },
    },
    {
      title: 'a zone as an offset',
      changes: [['Europe/Dublin', '"+01:00"']],
      expected: { path: 'zone', at: 'zone:', message: 'is a fixed offset, which does not say when the clocks change', mend: 'Write area and city, e.g. Europe/Dublin.' },
    },
    {
      title: 'an unknown zone',
      changes: [['Europe/Dublin', 'Europe/Nowhere']],
      expected: { path: 'zone', at: 'zone:', message: 'is not a time zone known here', mend: 'Write area and city, e.g. Europe/Dublin.' },
    },
    {
      title: 'an empty zone',
      changes: [['zone: Europe/Dublin', 'zone: ""']],
      expected: { path: 'zone', at: 'zone:', message: 'must not be empty', mend: 'Write area and city, e.g. Europe/Dublin.' },
    },
    {
      title: 'an unknown protocol',
      changes: [['protocol: novice', 'protocol: expert']],
      expected: { path: 'protocol', at: 'protocol:', message: 'is not known in the content', mend: 'Use one of: athletes-impact-high-g, long-standing-neck-pain, maintenance-after-discharge, novice, very-weak-extensors.' },
    },
    {
      title: 'an unknown language',
      changes: [['language: en', 'language: tlh']],
      expected: { path: 'client.language', at: 'language: tlh', message: 'is not known in the content', mend: 'Use one of: en.' },
    },
    {
      title: 'an unknown condition',
      changes: [['  conditions: []', '  conditions: [tiredness]']],
      expected: { path: 'screening.conditions[0]', at: 'tiredness', message: 'is not known in the content', mend: 'Use one of: fracture-within-6-months, dropped-head-swallowing-breathing, untreated-cord-signs, unstable-heart-or-vessel-disease, brain-aneurysm-or-recent-bleed, acute-clot, recent-eye-surgery, uncontrolled-systemic-disease, neck-surgery, rheumatoid-arthritis, ankylosing-spondylitis, down-syndrome, connective-tissue-disease, osteoporosis, pregnancy, glaucoma, retinal-disease, past-cancer.' },
    },
    {
      title: 'an unknown restriction',
      changes: [['restrictions: []', 'restrictions:\n  - shoulder-limited']],
      expected: { path: 'restrictions[0]', at: 'shoulder-limited', message: 'is not known in the content', mend: 'Use one of: shoulder-left-limited, shoulder-right-limited, hands-to-head-limited, floor-transfer-limited, no-load-through-head, side-lying-limited, back-lying-limited, no-jaw-pressure.' },
    },
    {
      title: 'a contraindication that rules out nothing',
      changes: [['contraindications: []', 'contraindications: [osteoporosis]']],
      expected: { path: 'contraindications[0]', at: 'osteoporosis', message: 'is not known in the content', mend: 'Use one of: ankylosing-spondylitis, connective-tissue-disease, down-syndrome, glaucoma, retinal-disease, rheumatoid-arthritis.' },
    },
    {
      title: 'a band whose force falls with its stretch',
      changes: [['stretch_cm: 60, force_n: 24', 'stretch_cm: 60, force_n: 8']],
      expected: { path: 'equipment.bands[0].points', at: 'points: [{ stretch_cm: 10, force_n: 8 }', message: 'must rise in stretch and in force', mend: 'Put the shorter stretch first; the force measured at the longer one must be higher.' },
    },
    {
      title: 'a band measured once',
      changes: [['[{ stretch_cm: 10, force_n: 8 }, { stretch_cm: 60, force_n: 24 }]', '[{ stretch_cm: 10, force_n: 8 }]']],
      expected: { path: 'equipment.bands[0].points', at: 'points: [{ stretch_cm: 10, force_n: 8 }', message: 'must have at least 2 entries', mend: 'Add what is missing.' },
    },
    {
      title: 'two bands of one id',
      changes: [['id: medium', 'id: light']],
      expected: { path: 'equipment.bands[1].id', at: 'id: light\n      points: [{ stretch_cm: 10, force_n: 14', message: 'stands twice', mend: 'Give each band an id of its own.' },
    },
    {
      title: 'an emergency sign recorded as known',
      changes: [['known_signs: []', 'known_signs:\n  - { sign: face-droop, words: since birth, side: left, area: face, worst: 0 }']],
      expected: { path: 'known_signs[0].sign', at: 'face-droop', message: 'is an emergency sign and cannot be recorded as known', mend: 'Use one of: arm-numbness, slow-weakness, clumsy-hands, electric-shock, unsteady-walking, light-headed, pain-unlike-any, pulsing-ear-noise, weight-loss, night-pain, fever, feeling-ill.' },
    },
    {
      title: 'a direction that stands twice',
      changes: [['shown: [seated-hold-two-hands] }', 'shown: [seated-hold-two-hands] }\n  - { direction: extension, rung: 2, max_rung: 2, shown: [] }']],
      expected: { path: 'ladders[1].direction', at: '{ direction: extension, rung: 2, max_rung: 2', message: 'stands twice', mend: 'Keep one ladder a direction.' },
    },
    {
      title: 'a highest rung above the ladder',
      changes: [['max_rung: 5', 'max_rung: 6']],
      expected: { path: 'ladders[0].max_rung', at: '{ direction: extension', message: 'is above the ladder, which has 5 rungs', mend: 'Lower it to 5 or less.' },
    },
    {
      title: 'a start above the highest rung',
      changes: [['max_rung: 5', 'max_rung: 1']],
      expected: { ...start, message: 'is above max_rung', mend: 'Lower it to 1 or less, or raise max_rung.' },
    },
    {
      title: 'an exercise shown that is not on the ladder',
      changes: [['[seated-hold-two-hands]', '[seated-hold-two-hands, deep-flexor-activation]']],
      expected: { path: 'ladders[0].shown[1]', at: '{ direction: extension', message: 'is no exercise of this ladder', mend: 'Use one of: gravity-minimised-hold, lying-head-press, seated-hold-two-hands, seated-wall-press, seated-hold-one-hand, seated-band, seated-band-harness, seated-harness, supported-bridge.' },
    },
    {
      title: 'a start with an exercise that was not shown',
      changes: [['shown: [seated-hold-two-hands]', 'shown: [seated-band]']],
      expected: { path: 'ladders[0].shown', at: '{ direction: extension', message: 'does not hold seated-hold-two-hands, which the client starts with', mend: 'Show it in person, then add seated-hold-two-hands.' },
    },
    {
      title: 'a start with two hands for a limited shoulder',
      changes: [['restrictions: []', 'restrictions: [shoulder-left-limited]']],
      expected: { path: 'ladders[0].shown', at: '{ direction: extension', message: 'does not hold seated-hold-one-hand, which the client starts with', mend: 'Show it in person, then add seated-hold-one-hand.' },
    },
    {
      title: 'a start on a harness that is not there',
      changes: [['rung: 2, max_rung', 'rung: 4, max_rung'], ['harness_kg: 0.4', 'harness_kg: null']],
      expected: closed('seated-harness: it needs harness and support'),
    },
    {
      title: 'a start on a bridge that an eye disease rules out',
      changes: [['rung: 2, max_rung', 'rung: 5, max_rung'], ['contraindications: []', 'contraindications: [glaucoma]']],
      expected: closed('supported-bridge: glaucoma rules it out'),
    },
    {
      title: 'a start on a bridge ruled out and without its step',
      changes: [['rung: 2, max_rung', 'rung: 5, max_rung'], ['  conditions: []', '  conditions: [retinal-disease]'], ['step_cm: 30', 'step_cm: null']],
      expected: closed('supported-bridge: it needs support and step, retinal-disease rules it out'),
    },
    {
      title: 'a start on a harness at an age for holds and band only',
      changes: [['rung: 2, max_rung', 'rung: 4, max_rung'], ['age: 34', 'age: 65']],
      expected: closed('seated-harness: the screening allows holds and band only, and no override_reason is given'),
    },
    {
      title: 'a start on a turn against the hand which no hand can give',
      changes: [
        ['{ direction: extension, rung: 2, max_rung: 5, shown: [seated-hold-two-hands] }', '{ direction: rotation-left, rung: 2, max_rung: 3, shown: [seated-turn-hold] }'],
        ['restrictions: []', 'restrictions: [hands-to-head-limited]'],
      ],
      expected: {
        ...closed('seated-turn-hold: hands-to-head-limited rules it out; seated-turn-hold-one-hand: hands-to-head-limited rules it out'),
        at: '{ direction: rotation-left',
      },
    },
  ] as const)('is listed with line, path and mend: $title', ({ changes, expected: { at, ...expected } }) => {
    const text = planWith(...changes)
    expect(problemsIn(text)).toEqual([{ file: 'plan.yaml', line: lineIn(text, at), ...expected }])
  })

  it('is a direction whose ladder the content lacks', () => {
    const text = planWith(['{ direction: extension, rung', '{ direction: flexion, rung'])
    const ladders = new Map([...content.ladders].filter(([id]) => id === 'rotation'))
    expect(problemsOf(() => readPlan(text, 'plan.yaml', { ...content, ladders }))).toEqual([
      {
        file: 'plan.yaml',
        line: lineIn(text, '{ direction: flexion'),
        path: 'ladders[0].direction',
        message: 'has no ladder in the content',
        mend: 'Use one of: rotation-left, rotation-right.',
      },
    ])
  })

  it('does not hide another', () => {
    const text = planWith(['usual_pain: 1', 'usual_pain: 12'], ['step_cm: 30', 'step_cm: high'], ['max_rung: 5', 'max_rung: 0'])
    expect(problemsIn(text).map(({ path }) => path)).toEqual(['usual_pain', 'equipment.step_cm', 'ladders[0].max_rung'])
  })

  it('is told without what the plan says of the client', () => {
    const tooLong = planWith(['Orla Tiernan', 'x'.repeat(81)], ['override_reason: null', `override_reason: ${'y'.repeat(401)}`])
    const unquoted = planWith(['{ name: Orla Tiernan', '{ name: "xx" yy'])
    const told = [tooLong, unquoted].map(problemsIn)
    expect(told.map((problems) => problems.length)).toEqual([2, 1])
    expect(JSON.stringify(told)).not.toMatch(/xx|yy/)
  })

  it.each([
    ['an empty file', ''],
    ['a list', '- a'],
    ['a second document', `${shippedPlan}\n---\n${shippedPlan}`],
    ['a tag', `client: !!js/function x\n${shippedPlan}`],
    ['an alias of nothing', 'client: *nobody'],
    ['aliases that would fill the memory', ['a: &a [x, x]', ...range(24).map((step) => `a${step}: &a${step} [*a${step - 1 || ''}, *a${step - 1 || ''}]`)].join('\n')],
    ['brackets without end', '{'.repeat(3000)],
  ])('is one problem: %s', (_, text) => {
    expect(problemsIn(text).map(({ file, path }) => [file, path])).toEqual([['plan.yaml', '']])
  })
})
