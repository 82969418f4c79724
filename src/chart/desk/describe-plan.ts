// A plan read back to the therapist before it counts.
import type { Words } from '#src/content/content.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { KnownSign, Measurement, Plan } from '#src/domain/plan.ts'
import { laddersOf, plannedLadder } from '#src/rules/plan-ladders.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'

export function describePlan(draft: Draft<Desk>, plan: Plan): string {
  const words = draft.words(draft.document.language)
  const dash = words.say('common.dash')
  const names = (prefix: string, ids: readonly string[]): string => ids.map((id) => words.say(`${prefix}.${id}`)).join(', ') || dash
  const { equipment, schedule, screening } = plan
  const line = (key: string, value: string | number): string => words.say(`enrolment.line.${key}`, { value })
  const bands = equipment.bands.map(({ id, points }) => `${id}: ${points.map((point) => `${point.stretchCm} cm ${point.forceN} N`).join(', ')}`)
  return [
    line('client', plan.client.name),
    line('zone', plan.zone),
    line('emergency', plan.emergencyNumber),
    line('out-of-hours', plan.outOfHoursNumber),
    line('age', screening.age),
    line('blood-pressure', screening.bloodPressure ? `${screening.bloodPressure.systolic}/${screening.bloodPressure.diastolic}` : dash),
    line('conditions', names('conditions', screening.conditions)),
    ...(screening.overrideReason === null ? [] : [line('override', screening.overrideReason)]),
    line('usual-pain', plan.usualPain),
    line('known-signs', plan.knownSigns.map((known) => describeKnownSign(words, known)).join('; ') || dash),
    line('restrictions', names('restrictions', plan.restrictions)),
    line('plates', equipment.platesKg.length > 0 ? `${equipment.platesKg.join(', ')} kg` : dash),
    line('harness', equipment.harnessKg === null ? dash : `${equipment.harnessKg} kg`),
    line('bands', bands.join('; ') || dash),
    line('support', words.say(equipment.hasSupport ? 'common.yes' : 'common.no')),
    line('step', equipment.stepCm === null ? dash : `${equipment.stepCm} cm`),
    line('protocol', plan.protocol === '' ? dash : words.say(`enrolment.protocols.${plan.protocol}`)),
    ...laddersOf(plan).map((ladder) => describeLadder(words, plan, ladder)),
    line('schedule', `${schedule.days.map((day) => words.say(`common.weekday.${day}`)).join(', ')} ${schedule.time}`),
    line('quiet', `${schedule.quiet.from}–${schedule.quiet.to}`),
    line('second', plan.contacts.second?.name ?? dash),
  ].join('\n')
}

function describeKnownSign(words: Words, { sign, words: inWords, side, area, worst }: KnownSign): string {
  const name = words.say(`signs.therapist.${sign}`)
  // Taken by an older version of the questions, which asked for nothing but the sign.
  return area === '' ? name : words.say('enrolment.known-sign-line', { name, words: inWords, side: side ?? 'none', area, worst })
}

function describeLadder(words: Words, plan: Plan, id: LadderId): string {
  const planned = plannedLadder(plan, id)
  if (planned === null) return ''
  const measured = plan.measurements.filter(({ direction }) => planned.directions.includes(direction))
  return words.say('enrolment.line.ladder', {
    ladder: words.say(`common.ladder.${id}`),
    from: planned.rung,
    to: planned.maxRung,
    shown: planned.shown.map((exercise) => words.exerciseName(exercise)).join(', ') || words.say('common.dash'),
    measured: measured.length === 0 ? 'none' : measured.map((one) => describeMeasurement(words, one)).join('; '),
  })
}

export function describeMeasurement(words: Words, { direction, force, unit, leverCm }: Measurement): string {
  const values = { direction: words.say(`common.direction.${direction}`), force, unit, lever: leverCm ?? 'unknown' }
  return words.say('measuring.taken', values)
}
