import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import { metaOf } from '#src/conversation/run-flow.ts'
import type { Answer, Option, Question, QuestionKind, Understood } from '#src/conversation/question.ts'
import { buttons, english, pressed, typed } from './ask-question.ts'

interface Sample {
  readonly question: Question
  readonly options?: readonly Option[]
  readonly chosen?: readonly string[]
  /** What is typed, and the answer it is. */
  readonly reads: readonly (readonly [string, Answer])[]
  /** What is typed, and why it cannot be used. */
  readonly refuses: readonly (readonly [string, string])[]
  /** Every button's value, and the answer it is. */
  readonly presses: readonly (readonly [string, Answer])[]
}

const none: Option = { value: 'none', words: 'common.none-of-these', saidBy: ['none'] }
const ways: readonly Option[] = [
  { value: 'go', label: 'Go on', saidBy: ['ready', 'done'] },
  { value: 'later', label: 'Later', saidBy: ['later'] },
]
const groups: readonly Option[] = [{ value: 'trauma', label: 'A fall, crash or blow' }, { value: 'limbs', label: 'Weak or numb' }, none]
const rungs: readonly Option[] = [{ value: '2', label: '2. Seated hold' }, { value: '3', label: '3. Band' }]
const days: readonly Option[] = [{ value: '2026-01-09', label: 'Fri 9 Jan' }, { value: '2026-01-12', label: 'Mon 12 Jan' }]
const atHalf = 'half past six'
const everyDay = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun']
const twoPoints = [{ stretchCm: 10, forceN: 8 }, { stretchCm: 30, forceN: 20 }]
const numberButtons = (from: number, to: number): (readonly [string, Answer])[] =>
  Array.from({ length: to - from + 1 }, (_, index) => [String(from + index), from + index])

const samples: { readonly [Kind in QuestionKind]: readonly Sample[] } = {
  pain: [
    {
      question: { kind: 'pain' },
      reads: [['0', 0], ['10', 10], ['3', 3], ['two', 2], ['2-3', 3], ['2.5', 3], ['nothing', 0], ['no pain', 0], ['about 4 out of 10', 4]],
      refuses: [['11', 'no-pain-number'], ['-1', 'no-pain-number'], ['ok', 'no-pain-number'], ['', 'no-pain-number'], ['I do not know', 'no-pain-number']],
      presses: numberButtons(0, 10),
    },
    {
      question: { kind: 'pain', mayBeForgotten: true },
      reads: [['4', 4], ['skip', null]],
      refuses: [['ok', 'no-pain-number'], ['12', 'no-pain-number']],
      presses: [...numberButtons(0, 10), ['forgotten', null]],
    },
  ],
  control: [
    {
      question: { kind: 'control' },
      reads: [['no', 'steady'], ['a little', 'shaky'], ['yes', 'lost'], ['my shoulders moved', 'lost'], ['all clean', 'steady']],
      refuses: [['7', 'no-control'], ['', 'no-control'], ['banana', 'no-control']],
      presses: [['steady', 'steady'], ['shaky', 'shaky'], ['lost', 'lost']],
    },
  ],
  reserve: [
    {
      question: { kind: 'reserve' },
      reads: [['0', 0], ['3', 3], ['none', 0], ['two or three', 2], ['12', 12]],
      refuses: [['', 'no-reserve'], ['ok', 'no-reserve']],
      presses: numberButtons(0, 5),
    },
  ],
  'yes-no': [
    {
      question: { kind: 'yes-no' },
      reads: [['yes', true], ['yep', true], ['no', false], ['nope', false]],
      refuses: [['maybe', 'no-yes-or-no'], ['', 'no-yes-or-no'], ['5', 'no-yes-or-no']],
      presses: [['yes', true], ['no', false]],
    },
  ],
  choice: [
    {
      question: { kind: 'choice', options: ways },
      options: ways,
      reads: [['go on', 'go'], ['Ready', 'go'], ['yes', 'go'], ['later', 'later'], ['2', 'later'], ['1.', 'go']],
      refuses: [['3', 'no-such-choice'], ['0', 'no-such-choice'], ['banana', 'no-such-choice'], ['', 'no-such-choice']],
      presses: [['go', 'go'], ['later', 'later']],
    },
  ],
  'choice-or-pain': [
    {
      question: { kind: 'choice-or-pain', options: ways },
      options: ways,
      reads: [['done', 'go'], ['2', 2], ['0', 0], ['pain was 6', 6]],
      refuses: [['11', 'no-such-choice'], ['banana', 'no-such-choice']],
      presses: [['go', 'go'], ['later', 'later']],
    },
  ],
  'open-choice': [
    {
      question: { kind: 'open-choice', from: 'screen-groups' },
      options: groups,
      reads: [['none', 'none'], ['none of these', 'none'], ['no', 'none'], ['weak or numb', 'limbs'], ['1', 'trauma']],
      // A safety check is not passed by a "yes", nor by a "ready" or "done" sent twice.
      refuses: [['yes', 'no-such-choice'], ['ready', 'no-such-choice'], ['done', 'no-such-choice'], ['4', 'no-such-choice']],
      presses: [['trauma', 'trauma'], ['limbs', 'limbs'], ['none', 'none']],
    },
    {
      question: { kind: 'open-choice', from: 'rungs' },
      options: rungs,
      // A number means the rung of that number, not the place in the list.
      reads: [['2', '2'], ['3', '3'], ['3. Band', '3']],
      refuses: [['1', 'no-such-choice'], ['4', 'no-such-choice'], ['no', 'no-such-choice']],
      presses: [['2', '2'], ['3', '3']],
    },
  ],
  several: [
    {
      question: { kind: 'several', from: 'conditions' },
      options: groups.slice(0, 2),
      chosen: ['limbs'],
      reads: [['done', ['limbs']], ['none', []], ['no', []], ['1, 2', ['trauma', 'limbs']], ['2', ['limbs']]],
      refuses: [['3', 'no-such-choice'], ['1, 9', 'no-such-choice'], ['banana', 'no-such-choice']],
      presses: [['done', ['limbs']]],
    },
  ],
  text: [
    {
      question: { kind: 'text' },
      reads: [['Noor Lindqvist', 'Noor Lindqvist'], ['  Ana ', 'Ana'], ['x'.repeat(500), 'x'.repeat(500)]],
      refuses: [['   ', 'empty'], ['x'.repeat(501), 'too-long']],
      presses: [],
    },
    {
      question: { kind: 'text', mayBeEmpty: true },
      reads: [['-', ''], ['none', ''], ['because', 'because']],
      refuses: [['', 'empty']],
      presses: [['empty', '']],
    },
  ],
  number: [
    {
      question: { kind: 'number', least: 1, most: 110, isWhole: true },
      reads: [['1', 1], ['110', 110], ['41', 41]],
      refuses: [['0', 'out-of-range'], ['111', 'out-of-range'], ['40.5', 'not-whole'], ['old', 'no-number'], ['4 5', 'no-number'], ['none', 'no-number']],
      presses: [],
    },
    {
      question: { kind: 'number', least: 0.05, most: 2, mayBeNone: true },
      reads: [['0.05', 0.05], ['2', 2], ['0,35 kg', 0.35], ['none', null], ['-', null]],
      refuses: [['0.04', 'out-of-range'], ['2.01', 'out-of-range'], ['heavy', 'no-number']],
      presses: [['none', null]],
    },
  ],
  numbers: [
    {
      question: { kind: 'numbers', least: 0.1, most: 20 },
      reads: [['0.25 0.5 1', [0.25, 0.5, 1]], ['2 x 1.25', [1.25, 1.25]], ['0,5; 1', [0.5, 1]], ['0.1, 20', [0.1, 20]], ['none', []], ['-', []]],
      refuses: [['0.09', 'out-of-range'], ['1 20.5', 'out-of-range'], ['two plates', 'no-number']],
      presses: [['none', []]],
    },
  ],
  'wall-time': [
    {
      question: { kind: 'wall-time' },
      reads: [['18:30', '18:30'], ['6 pm', '18:00'], ['12 am', '00:00'], ['12 pm', '12:00'], ['7', '07:00'], ['0:00', '00:00'], ['23.59', '23:59'], ['18h', '18:00']],
      refuses: [['24:00', 'no-time'], ['18:60', 'no-time'], ['13 pm', 'no-time'], ['0 am', 'no-time'], [atHalf, 'no-time'], ['', 'no-time']],
      presses: [],
    },
  ],
  'time-span': [
    {
      question: { kind: 'time-span' },
      reads: [['21:00-08:00', { from: '21:00', to: '08:00' }], ['9 am to 5 pm', { from: '09:00', to: '17:00' }], ['8 until 18', { from: '08:00', to: '18:00' }]],
      refuses: [['21:00', 'no-time-span'], ['8-8', 'no-time-span'], ['8-12-18', 'no-time-span'], ['8-25', 'no-time-span'], ['', 'no-time-span']],
      presses: [],
    },
  ],
  weekdays: [
    {
      question: { kind: 'weekdays' },
      reads: [
        ['mon, wed, fri', ['mon', 'wed', 'fri']],
        ['Friday and Monday', ['mon', 'fri']],
        ['mon-fri', ['mon', 'tue', 'wed', 'thu', 'fri']],
        ['sat to mon', ['mon', 'sat', 'sun']],
        ['every day', everyDay],
      ],
      refuses: [['', 'no-weekdays'], ['mon, banana', 'no-weekdays'], ['3', 'no-weekdays'], ['mon-banana', 'no-weekdays']],
      presses: [['mon-wed-fri', ['mon', 'wed', 'fri']], ['mon-tue-wed-thu-fri', ['mon', 'tue', 'wed', 'thu', 'fri']], ['every', everyDay]],
    },
  ],
  date: [
    {
      question: { kind: 'date', from: 'days' },
      options: days,
      reads: [['Fri 9 Jan', '2026-01-09'], ['fri, 9 jan', '2026-01-09'], ['2026-01-09', '2026-01-09'], [' 2026-02-28 ', '2026-02-28'], ['Mon 12 Jan', '2026-01-12']],
      refuses: [['', 'no-date'], ['2', 'no-date'], ['2026-02-30', 'no-date'], ['2026-13-01', 'no-date'], ['2026-1-9', 'no-date'], ['soon', 'no-date']],
      presses: [['2026-01-09', '2026-01-09'], ['2026-01-12', '2026-01-12']],
    },
  ],
  zone: [
    {
      question: { kind: 'zone' },
      reads: [['Europe/Dublin', 'Europe/Dublin'], ['dublin', 'Europe/Dublin'], ['UTC', 'UTC']],
      refuses: [['CET', 'zone-abbreviation'], ['+01:00', 'zone-fixed-offset'], ['Atlantis', 'zone-unknown'], [' ', 'zone-empty']],
      presses: [],
    },
  ],
  'blood-pressure': [
    {
      question: { kind: 'blood-pressure' },
      reads: [
        ['125/80', { systolic: 125, diastolic: 80 }],
        ['180 over 110', { systolic: 180, diastolic: 110 }],
        ['60/30', { systolic: 60, diastolic: 30 }],
        ['280/180', { systolic: 280, diastolic: 180 }],
        ['-', null],
        ['skip', null],
      ],
      refuses: [
        ['80/125', 'no-blood-pressure'],
        ['59/40', 'no-blood-pressure'],
        ['281/100', 'no-blood-pressure'],
        ['120/29', 'no-blood-pressure'],
        ['200/181', 'no-blood-pressure'],
        ['120', 'no-blood-pressure'],
        ['high', 'no-blood-pressure'],
      ],
      presses: [['unknown', null]],
    },
  ],
  band: [
    {
      question: { kind: 'band' },
      reads: [
        ['light: 10 cm 8 N, 30 cm 20 N', { id: 'light', points: twoPoints }],
        ['Dark Grey: 10 8 30 20', { id: 'dark-grey', points: twoPoints }],
        ['none', 'none'],
      ],
      refuses: [
        ['light', 'no-band'],
        ['light: 10 8 30', 'no-band'],
        ['light: 10 8 30 20 50', 'no-band'],
        ['light: 30 20 10 8', 'band-not-rising'],
        ['light: 10 8 30 8', 'band-not-rising'],
        ['light: 10 0.4 30 20', 'band-not-rising'],
        ['light: 10 8 30 201', 'band-not-rising'],
      ],
      presses: [['none', 'none']],
    },
  ],
  phone: [
    {
      question: { kind: 'phone' },
      reads: [['112', '112'], ['+353 20 913 0104', '+353 20 913 0104'], [' 116 117 ', '116 117'], ['(020) 913-0104', '(020) 913-0104']],
      refuses: [['1', 'no-phone-number'], ['call me', 'no-phone-number'], ['', 'no-phone-number'], ['1'.repeat(30), 'no-phone-number']],
      presses: [],
    },
  ],
  scale: [
    {
      question: { kind: 'scale', least: 0, most: 10, mayBeSkipped: true },
      reads: [['0', 0], ['10', 10], ['7/10', 7], ['6 out of 10', 6], ['10/10', 10], ['about 4.', 4], ['skip', null], ['-', null]],
      refuses: [
        ['11', 'no-scale-number'],
        ['-1', 'no-scale-number'],
        ['6.5', 'no-scale-number'],
        // On one scale the lower is the worse, on another the higher.
        ['6-7', 'no-scale-number'],
        ['well', 'no-scale-number'],
        ['', 'no-scale-number'],
      ],
      presses: [...numberButtons(0, 10), ['skip', null]],
    },
    {
      question: { kind: 'scale', least: 1, most: 7 },
      reads: [['1', 1], ['7', 7]],
      refuses: [['0', 'no-scale-number'], ['8', 'no-scale-number'], ['skip', 'no-scale-number'], ['-', 'no-scale-number']],
      presses: numberButtons(1, 7),
    },
  ],
  activity: [
    {
      question: { kind: 'activity' },
      reads: [
        [' look over  my shoulder ', 'look over my shoulder'],
        ['Driving', 'Driving'],
        ['not turning in bed', 'not turning in bed'],
        ['x'.repeat(80), 'x'.repeat(80)],
        ['no', ''],
        ['No more', ''],
        ['none', ''],
        ['skip', ''],
        ['done', ''],
        ['-', ''],
      ],
      refuses: [['', 'no-activity'], ['3', 'no-activity'], ['yes', 'no-activity'], ['x'.repeat(81), 'too-long']],
      presses: [['no-more', '']],
    },
  ],
  'known-sign': [
    {
      question: { kind: 'known-sign' },
      reads: [
        ['tingling, left, forearm and thumb, 4', { words: 'tingling', side: 'left', area: 'forearm and thumb', worst: 4 }],
        ['numb, a bit clumsy; Both sides; hands, fingers; 3/10', { words: 'numb, a bit clumsy', side: 'both', area: 'hands, fingers', worst: 3 }],
        ['light-headed, none, head, 0', { words: 'light-headed', side: null, area: 'head', worst: 0 }],
        ['shock, R, spine, 10', { words: 'shock', side: 'right', area: 'spine', worst: 10 }],
      ],
      refuses: [
        ['', 'no-known-sign'],
        ['tingling', 'no-known-sign'],
        ['left, forearm, 4', 'no-known-sign'],
        ['tingling, left, 4', 'no-known-sign'],
        ['tingling, left, forearm', 'no-known-sign'],
        ['tingling, sometimes, forearm, 4', 'no-known-sign'],
        ['tingling, left, forearm, -1', 'no-known-sign'],
        ['tingling, left, forearm, 11', 'out-of-range'],
        [`${'tingling '.repeat(50)}, left, forearm, 4`, 'too-long'],
      ],
      presses: [],
    },
  ],
  'measured-force': [
    {
      question: { kind: 'measured-force' },
      reads: [
        ['118 N', { trials: [118], unit: 'N', leverCm: null }],
        ['112, 118 N', { trials: [112, 118], unit: 'N', leverCm: null }],
        ['112 118 newtons', { trials: [112, 118], unit: 'N', leverCm: null }],
        ['112,118 N', { trials: [112, 118], unit: 'N', leverCm: null }],
        ['11,5 kgf', { trials: [11.5], unit: 'kgf', leverCm: null }],
        ['12.5; 13 kg', { trials: [12.5, 13], unit: 'kgf', leverCm: null }],
        ['26 lb', { trials: [26], unit: 'lbf', leverCm: null }],
        ['26lbf', { trials: [26], unit: 'lbf', leverCm: null }],
        ['112, 118 N at 14 cm', { trials: [112, 118], unit: 'N', leverCm: 14 }],
        ['118 N, lever arm 14,5 cm', { trials: [118], unit: 'N', leverCm: 14.5 }],
        ['118 N, 1 cm', { trials: [118], unit: 'N', leverCm: 1 }],
        ['118 N at 40 cm', { trials: [118], unit: 'N', leverCm: 40 }],
        // What cannot have been measured is for the rules to refuse, with what seems wrong.
        ['0 N', { trials: [0], unit: 'N', leverCm: null }],
        ['-12 N', { trials: [-12], unit: 'N', leverCm: null }],
        ['1 2 3 4 5 6 N', { trials: [1, 2, 3, 4, 5, 6], unit: 'N', leverCm: null }],
      ],
      refuses: [
        ['118', 'no-force-unit'],
        ['118 stone', 'no-force-unit'],
        ['16.5 Nm', 'force-is-moment'],
        ['16.5 N m', 'force-is-moment'],
        ['12 ft-lb', 'force-is-moment'],
        ['118 N at 0.9 cm', 'lever-out-of-range'],
        ['118 N at 41 cm', 'lever-out-of-range'],
        ['1 2 3 4 5 6 7 N', 'no-force'],
        ['strong', 'no-force'],
        ['none', 'no-force'],
        ['', 'no-force'],
      ],
      presses: [],
    },
    {
      question: { kind: 'measured-force', mayBeNone: true },
      reads: [['none', null], ['-', null], ['skip', null], ['118 N', { trials: [118], unit: 'N', leverCm: null }]],
      refuses: [['', 'no-force'], ['118', 'no-force-unit']],
      presses: [['none', null]],
    },
  ],
  'item-scores': [
    {
      question: { kind: 'item-scores' },
      reads: [
        ['0 1 2 3 4 5 0 1 2 3', [0, 1, 2, 3, 4, 5, 0, 1, 2, 3]],
        ['0,1,2,3,4; 5,0,1,-,–', [0, 1, 2, 3, 4, 5, 0, 1, null, null]],
        ['01234501--', [0, 1, 2, 3, 4, 5, 0, 1, null, null]],
      ],
      refuses: [
        ['0 1 2 3 4 5 0 1 2', 'not-ten-items'],
        ['0 1 2 3 4 5 0 1 2 3 4', 'not-ten-items'],
        ['', 'not-ten-items'],
        ['0 1 2 3 4 6 0 1 2 3', 'no-item-score'],
        ['0 1 2 3 4 x 0 1 2 3', 'no-item-score'],
        ['0 1 2 3 4 1.5 0 1 2 3', 'no-item-score'],
        ['0 1 2 3 4 5 0 - - -', 'too-many-gaps'],
      ],
      presses: [],
    },
  ],
}

const all = Object.entries(samples).flatMap(([kind, list]) => list.map((sample, index) => ({ name: `${kind} ${index + 1}`, ...sample })))
const answer = (value: Answer): Understood => ({ kind: 'answer', value })

describe('a question', () => {
  it.each(all.flatMap(({ name, reads, ...rest }) => reads.map(([text, value]) => ({ name, text, value, ...rest }))))(
    'of kind $name reads "$text"',
    ({ question, text, value, options, chosen }) => {
      expect(typed(question, text, options, chosen)).toEqual(answer(value))
    },
  )

  it.each(all.flatMap(({ name, refuses, ...rest }) => refuses.map(([text, reason]) => ({ name, text, reason, ...rest }))))(
    'of kind $name cannot use "$text": $reason',
    ({ question, text, reason, options, chosen }) => {
      expect(typed(question, text, options, chosen)).toMatchObject({ kind: 'unusable', reason })
    },
  )

  it.each(all.flatMap(({ name, presses, ...rest }) => presses.map(([value, meant]) => ({ name, value, meant, ...rest }))))(
    'of kind $name takes the press "$value"',
    ({ question, value, meant, options, chosen }) => {
      expect(pressed(question, value, options, chosen)).toEqual(answer(meant))
    },
  )

  it.each(all.filter(({ question }) => question.kind !== 'several'))('of kind $name has exactly the buttons it takes', (sample) => {
    const { question, options, chosen, presses } = sample
    expect(buttons(question, options, chosen).map((button) => button.value)).toEqual(presses.map(([value]) => value))
  })

  it.each(all)('of kind $name says why it cannot use an answer, in words that are there', ({ question, refuses, options, chosen }) => {
    const unusable = refuses.map(([text]) => typed(question, text, options, chosen))
    const said = unusable.flatMap((one) => (one.kind === 'unusable' ? english.words.say(`common.unusable.${one.reason}`, one.values) : []))
    expect(said.map((text) => text.trim()).filter((text) => text !== '')).toHaveLength(refuses.length)
  })
})

describe('a question that takes several', () => {
  const question: Question = { kind: 'several', from: 'conditions' }
  const options = groups.slice(0, 2)

  it('takes one and puts it back by a press or by its name', () => {
    expect(pressed(question, 'trauma', options)).toEqual({ kind: 'toggle', value: 'trauma' })
    expect(typed(question, 'Weak or numb', options, ['limbs'])).toEqual({ kind: 'toggle', value: 'limbs' })
  })

  it('shows what is taken, and ends with one button', () => {
    expect(buttons(question, options, ['limbs']).map(({ label }) => label)).toEqual(['A fall, crash or blow', '✓ Weak or numb', 'That is all'])
    expect(buttons(question, options, []).at(-1)?.label).toBe('None of these')
  })

  it('refuses a press of something that is not on offer', () => {
    expect(pressed(question, 'glaucoma', options)).toMatchObject({ kind: 'unusable', reason: 'no-such-choice' })
  })
})

describe('an option', () => {
  it('is meant by what else stands for it in the wording, when that is all that is typed', () => {
    const options: readonly Option[] = [{ value: 'worse', label: 'Worse', saidAs: 'symptom.known.say-worse' }]
    const question: Question = { kind: 'choice', options }
    expect(typed(question, 'It’s worse!', options)).toEqual(answer('worse'))
    expect(typed(question, 'it is not worse', options)).toMatchObject({ kind: 'unusable' })
  })
})

describe('the samples', () => {
  it('hold every kind of question that a flow asks', () => {
    const asked = [...flows.values()].flatMap((flow) =>
      Object.keys(flow.machine.states).flatMap((state) => {
        const meta = metaOf(flow, state)
        return meta !== null && 'asks' in meta ? [meta.asks.kind] : []
      }),
    )
    expect([...new Set(asked)].toSorted()).toEqual(Object.keys(samples).toSorted())
  })
})
