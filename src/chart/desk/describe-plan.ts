// A plan read back to the therapist before it counts.
import type { Plan } from '#src/domain/plan.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'

export function describePlan(draft: Draft<Desk>, plan: Plan): string {
  const words = draft.words(draft.document.language)
  const dash = words.say('common.dash')
  const names = (prefix: string, ids: readonly string[]): string => ids.map((id) => words.say(`${prefix}.${id}`)).join(', ') || dash
  const { equipment, schedule, screening } = plan
  const ladder = plan.ladders[0]
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
    line('known-signs', names('signs.therapist', plan.knownSigns.map((known) => known.sign))),
    line('restrictions', names('restrictions', plan.restrictions)),
    line('plates', equipment.platesKg.length > 0 ? `${equipment.platesKg.join(', ')} kg` : dash),
    line('harness', equipment.harnessKg === null ? dash : `${equipment.harnessKg} kg`),
    line('bands', bands.join('; ') || dash),
    line('support', words.say(equipment.hasSupport ? 'common.yes' : 'common.no')),
    line('step', equipment.stepCm === null ? dash : `${equipment.stepCm} cm`),
    line('measurement', plan.measurements[0] ? `${plan.measurements[0].force} N` : dash),
    line('rungs', `${ladder?.rung ?? dash} → ${ladder?.maxRung ?? dash}`),
    line('shown', ladder?.shown.map((id) => words.exercise(id).name).join(', ') || dash),
    line('schedule', `${schedule.days.map((day) => words.say(`common.weekday.${day}`)).join(', ')} ${schedule.time}`),
    line('quiet', `${schedule.quiet.from}–${schedule.quiet.to}`),
    line('second', plan.contacts.second?.name ?? dash),
  ].join('\n')
}
