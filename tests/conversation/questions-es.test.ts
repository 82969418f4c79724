import { describe, expect, it } from 'vitest'
import type { Answer, Question } from '#src/conversation/question.ts'
import { typedIn } from './ask-question.ts'

const weekdays: Question = { kind: 'weekdays' }
const time: Question = { kind: 'wall-time' }
const span: Question = { kind: 'time-span' }
const pressure: Question = { kind: 'blood-pressure' }
const force: Question = { kind: 'measured-force' }
const everyDay = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun']

/** What people write was thought up by us; how days and hours are said is from memory. */
const read: readonly (readonly [Question, string, Answer])[] = [
  [weekdays, 'lun, mié y vie', ['mon', 'wed', 'fri']],
  [weekdays, 'Lunes, MIERCOLES y viernes.', ['mon', 'wed', 'fri']],
  [weekdays, 'lunes a viernes', ['mon', 'tue', 'wed', 'thu', 'fri']],
  [weekdays, 'de lunes a viernes', ['mon', 'tue', 'wed', 'thu', 'fri']],
  [weekdays, 'los martes y los sábados', ['tue', 'sat']],
  [weekdays, 'sáb-lun', ['mon', 'sat', 'sun']],
  [weekdays, 'Todos los días', everyDay],
  [time, '7 de la tarde', '19:00'],
  [time, 'a las 18:30', '18:30'],
  [time, '18.30 h', '18:30'],
  [time, '18h30', '18:30'],
  [time, 'a la 1 p.m.', '13:00'],
  [time, 'las 8 de la mañana', '08:00'],
  [time, 'a las 12 de la noche', '00:00'],
  [time, '11 de la noche', '23:00'],
  [time, '2 de la noche', '02:00'],
  [span, 'de 21:00 a 8:00', { from: '21:00', to: '08:00' }],
  [span, 'desde las 9 de la noche hasta las 8 de la mañana', { from: '21:00', to: '08:00' }],
  [span, 'entre las 21 y las 8', { from: '21:00', to: '08:00' }],
  [span, '21:00–08:00', { from: '21:00', to: '08:00' }],
  [pressure, '120 sobre 80', { systolic: 120, diastolic: 80 }],
  [force, '112 118 newtons con brazo de palanca 14 cm', { trials: [112, 118], unit: 'N', leverCm: 14 }],
  [force, '12,5 kilos', { trials: [12.5], unit: 'kgf', leverCm: null }],
  [{ kind: 'numbers', least: 0.1, most: 20 }, '2 de 1,25 y 1 de 0,5', [1.25, 1.25, 0.5]],
  [{ kind: 'scale', least: 0, most: 10 }, '7 de 10', 7],
  [{ kind: 'scale', least: 0, most: 10 }, '7 sobre 10', 7],
]

const refused: readonly (readonly [Question, string, string])[] = [
  [weekdays, 'mañana', 'no-weekdays'],
  [weekdays, 'lunes o no', 'no-weekdays'],
  [weekdays, 'mar-banana', 'no-weekdays'],
  // Noon in one country, midnight in another.
  [time, '12 de la mañana', 'no-time'],
  [time, '7 y media', 'no-time'],
  [span, 'a las 21', 'no-time-span'],
  // Without the last figure, as some say it, it is not known which unit is meant.
  [pressure, '12/8', 'no-blood-pressure'],
]

describe('in Spanish, a question', () => {
  it.each(read)('$kind reads "%s"', (question, text, value) => {
    expect(typedIn('es', question, text)).toEqual({ kind: 'answer', value })
  })

  it.each(refused)('$kind cannot use "%s"', (question, text, reason) => {
    expect(typedIn('es', question, text)).toMatchObject({ kind: 'unusable', reason })
  })
})

describe('in English, a question', () => {
  it.each([
    [weekdays, 'Weds & thurs', ['wed', 'thu']],
    [weekdays, 'on Mondays', ['mon']],
    [time, '7 in the morning', '07:00'],
    [time, 'at 6:30 p.m.', '18:30'],
    [time, "8 o'clock", '08:00'],
    [span, 'from 9 at night until 8 in the morning', { from: '21:00', to: '08:00' }],
  ] as const)('$kind reads "%s"', (question, text, value) => {
    expect(typedIn('en', question, text)).toEqual({ kind: 'answer', value })
  })

  it.each([
    [weekdays, 't', 'no-weekdays'],
    [time, '12 in the morning', 'no-time'],
    [time, '1h5', 'no-time'],
  ] as const)('$kind cannot use "%s"', (question, text, reason) => {
    expect(typedIn('en', question, text)).toMatchObject({ kind: 'unusable', reason })
  })
})
