import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { protocolFileSchema } from '#src/content/protocol-schema.ts'
import { readShaped } from '#src/content/read-shaped.ts'
import { keysOf, orderFaults } from '#src/content/threshold-orders.ts'
import { overridesSchema } from '#src/content/threshold-schemas.ts'
import { thresholdAt, type ThresholdOverrides, type ThresholdPath } from '#src/domain/protocol.ts'
import { withOverrides } from '#src/rules/protocol-for.ts'
import { leavesInFile, protocolIds, shippedProtocol, sourcesOf } from '#tests/support/shipped-protocols.ts'

const noviceText = readFileSync('content/protocols/novice.yaml', 'utf8')

function problemsWith(from: string, to: string): readonly unknown[] {
  if (!noviceText.includes(from)) throw new Error(`"${from}" stands nowhere`)
  const reading = readShaped(noviceText.replace(from, to), 'novice.yaml', protocolFileSchema)
  return reading.kind === 'read' ? [] : reading.problems.map(({ path, message, mend }) => ({ path, message, mend }))
}

function nested(path: string, value: unknown): unknown {
  return path.split('.').reduceRight<unknown>((inner, key) => ({ [key]: inner }), value)
}

const ladders = ['extension', 'flexion', 'lateral-flexion', 'rotation', 'deep-flexors']

/** Every number, with the least and the most that anybody may set; the step says how fine it is. */
const bounds: readonly (readonly [path: string, least: number, most: number, step: number])[] = [
  ['pain.comfortable_up_to', 0, 3, 1],
  ['pain.amber_up_to', 2, 5, 1],
  ['pain.ends_session_above', 4, 8, 1],
  ['pain.urgent_from', 6, 9, 1],
  ['pain.urgent_above_usual_by', 1, 3, 1],
  ['pain.no_progress_from_usual', 3, 6, 1],
  ...ladders.map((ladder) => [`sets.${ladder}`, 1, 4, 1] as const),
  ['reserve.for_progress', 1, 4, 1],
  ['reserve.on_entry_unmeasured', 2, 6, 1],
  ['morning.bad_above_usual_by', 1, 3, 1],
  ['weekly.no_progress_above_usual_by', 1, 3, 0.1],
  ['running.amber', 2, 5, 1],
  ['running.red', 1, 3, 1],
  ['running.bad_mornings', 1, 3, 1],
  ['running.lowest_dose', 1, 3, 1],
  ['ease.at_least', 0.05, 0.3, 0.01],
  ['load_step.largest', 0.02, 0.15, 0.01],
  ['load_step.far_above', 0.1, 0.35, 0.01],
  ['load_step.approval_above', 0.2, 0.75, 0.01],
  ['load_step.beyond_places', 1, 2, 1],
  ['load_step.far_beyond_places', 1, 3, 1],
  ['load_step.first_plate_kg', 0.1, 0.5, 0.01],
  ...ladders.map((ladder) => [`working.${ladder}.warm_up`, 0.05, 0.3, 0.01] as const),
  ...ladders.map((ladder) => [`working.${ladder}.target`, 0.1, 0.75, 0.01] as const),
  ['maximum.band_entry', 0.05, 0.2, 0.01],
  ['maximum.band_leave', 0.1, 0.3, 0.01],
  ['maximum.start', 0.05, 0.3, 0.01],
  ['maximum.ceiling', 0.2, 0.75, 0.01],
  ['band.steps_above_entry', 1, 6, 1],
  ['harness.entry_up_to_kg', 0.1, 1, 0.01],
  ['harness.ceiling_kg', 1, 15, 0.1],
  ['loaded_rung.sessions', 3, 30, 1],
  ['loaded_rung.days', 7, 90, 1],
  ['session.most_directions', 2, 4, 1],
  ['session.most_sets', 4, 12, 1],
  ['retest.every_days', 14, 84, 1],
  ['absence.withdraw_after_days', 3, 10, 1],
  ['absence.ease_after_days', 7, 21, 1],
  ['absence.reenter_after_days', 14, 42, 1],
  ['supervision.no_progress_after_days', 7, 42, 1],
  ['supervision.no_session_after_days', 14, 56, 1],
  ['approval.lapses_after_days', 3, 28, 1],
  ['lock.sessions_without_progress', 1, 6, 1],
  ['silence.ask_after_minutes', 2, 10, 1],
  ['silence.pause_after_minutes', 4, 20, 1],
]

describe('the hard bounds (our choice)', () => {
  it.each(bounds)('%s goes from %d to %d and no further', (path, least, most, step) => {
    const isTaken = (value: number): boolean => overridesSchema.safeParse(nested(path, value)).success
    expect([least - step, least, most, most + step].map(isTaken)).toEqual([false, true, true, false])
  })

  it('hold for every number that a protocol has', () => {
    const numbers = [...leavesInFile('novice')].filter(([, { value }]) => typeof value === 'number').map(([path]) => path)
    expect(bounds.map(([path]) => path).toSorted()).toEqual(numbers.toSorted())
  })

  it.each<readonly [string, readonly unknown[], boolean]>([
    ['below', [], false],
    ['below', [1, 2, 3], true],
    ['below', [1, 2, 3, 4], false],
    ['range', [8], false],
    ['range', [1, 30], true],
    ['range', [0, 8], false],
    ['range', [8, 31], false],
    ['beyond', [14], false],
    ['beyond', [14, 15, 16], true],
    ['beyond', [14.5, 16], false],
  ])('a list of repetitions %s of %j is taken: %s', (list, value, isTaken) => {
    expect(overridesSchema.safeParse({ repetitions: { [list]: value } }).success).toBe(isTaken)
  })
})

describe('a value in a protocol', () => {
  it.each([
    ['comfortable_up_to: { value: 2, source: "', 'comfortable_up_to: { value: 2, remark: "', 'pain.comfortable_up_to.source', 'is missing'],
    ['source: our choice', 'source: ""', 'pain.ends_session_above.source', 'must not be empty'],
    ['source: our choice', 'source: as usual', 'pain.ends_session_above.source', 'names no source'],
    ['source: our choice', 'source: to be found', 'pain.ends_session_above.source', 'names no source'],
  ])('without a source is refused: %s → %s', (from, to, path, message) => {
    expect(problemsWith(from, to)).toContainEqual(expect.objectContaining({ path, message }))
  })

  it.each(['our choice', 'common practice, no source', 'Conley 1997, found: 3 x 10'])('with the source "%s" is taken', (source) => {
    expect(problemsWith('source: our choice', `source: "${source}"`)).toEqual([])
  })
})

describe('two thresholds', () => {
  it.each<readonly [string, ThresholdOverrides, ThresholdPath | null]>([
    ['comfortable below amber', { pain: { comfortableUpTo: 2, amberUpTo: 3 } }, null],
    ['comfortable as high as amber', { pain: { comfortableUpTo: 3, amberUpTo: 3 } }, 'pain.amberUpTo'],
    ['amber as high as the end of a session', { pain: { amberUpTo: 5, endsSessionAbove: 5 } }, 'pain.endsSessionAbove'],
    ['a start at the target', { maximum: { start: 0.2, ceiling: 0.45 }, working: { flexion: { warmUp: 0.1, target: 0.2 } } }, null],
    ['a start above the target', { maximum: { start: 0.21 }, working: { flexion: { warmUp: 0.1, target: 0.2 } } }, 'working.flexion.target'],
    ['a warm-up at the target', { working: { rotation: { warmUp: 0.2, target: 0.2 } } }, 'working.rotation.target'],
    ['a target at the ceiling', { working: { extension: { target: 0.6 } }, maximum: { ceiling: 0.6 } }, null],
    ['a target above the ceiling', { working: { extension: { target: 0.6 } } }, 'maximum.ceiling'],
    ['a harness begun at its ceiling', { harness: { entryUpToKg: 1, ceilingKg: 1 } }, null],
    ['easing a day after withdrawing', { absence: { withdrawAfterDays: 7, easeAfterDays: 8 } }, null],
    ['easing on the day of withdrawing', { absence: { withdrawAfterDays: 7, easeAfterDays: 7 } }, 'absence.easeAfterDays'],
    ['six sets for two sides where six fit', { session: { mostSets: 6 } }, null],
    ['six sets for two sides where five fit', { session: { mostSets: 5 }, sets: { rotation: 2 } }, 'session.mostSets'],
  ])('%s', (_, overrides, path) => {
    const faults = orderFaults(withOverrides(shippedProtocol('novice'), overrides)).map(({ higher }) => higher)
    expect(faults).toEqual(path === null ? [] : [path])
  })

  it.each<readonly [string, ThresholdOverrides, ThresholdPath | null]>([
    ['rising lists', { repetitions: { below: [5], range: [6, 7], beyond: [8, 9] } }, null],
    ['a list that stands still', { repetitions: { range: [8, 8, 10] } }, 'repetitions.range'],
    ['a list that falls', { repetitions: { below: [6, 5, 4] } }, 'repetitions.below'],
    ['a range that begins where the list before ends', { repetitions: { range: [6, 8] } }, 'repetitions.range'],
    ['a list beyond that begins where the range ends', { repetitions: { beyond: [12, 14] } }, 'repetitions.beyond'],
    ['three asked for where three are listed', { loadStep: { farBeyondPlaces: 3 }, repetitions: { beyond: [13, 14, 15] } }, null],
    ['three asked for where two are listed', { loadStep: { farBeyondPlaces: 3 } }, 'repetitions.beyond'],
  ])('of the repetitions: %s', (_, overrides, path) => {
    const faults = orderFaults(withOverrides(shippedProtocol('novice'), overrides)).map(({ higher }) => higher)
    expect(faults).toEqual(path === null ? [] : [path])
  })
})

describe('the sources', () => {
  it.each(protocolIds)('of %s stand at hand under the path of each value', (id) => {
    const inFile = [...leavesInFile(id)]
    const atHand = [...sourcesOf(id)].map(([path, source]) => [keysOf(path).join('.'), { value: thresholdAt(shippedProtocol(id), path), source }])
    expect(atHand).toEqual(inFile)
  })
})
