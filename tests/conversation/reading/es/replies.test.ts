import { describe, expect, it } from 'vitest'
import type { Command } from '#src/conversation/reading/read-message.ts'
import { readerOf } from '../reading-of.ts'

const { read } = readerOf('es')

const yesNo: readonly (readonly [string, boolean | null])[] = [
  ['sí', true], ['si', true], ['SÍ!', true], ['sip', true], ['claro', true], ['claro que sí', true], ['por supuesto', true], ['dale', true],
  ['vale', true], ['ok', true], ['obvio', true], ['creo que sí', true], ['simón', true], ['👍', true], ['✅', true], ['sí por favor', true],
  ['sí, sin dolor', true], ['siii', true], ['bueno', true], ['así es', true],
  ['no', false], ['No.', false], ['nop', false], ['nel', false], ['para nada', false], ['todavía no', false], ['aún no', false], ['qué va', false],
  ['creo que no', false], ['claro que no', false], ['nunca', false], ['ninguna de esas', false], ['no, gracias', false], ['👎', false],
  ['no mucho', false], ['tampoco', false], ['nada', false], ['hoy no', false],
  ['sí no espera no', false], ['no perdón sí', true], ['sí no', null], ['quizás', null], ['no sé', null], ['no estoy seguro', null], ['quién sabe', null],
  ['¿cómo?', null], ['3', null], ['', null],
]

const commands: readonly (readonly [string, Command | null])[] = [
  ['ayuda', 'help'], ['necesito ayuda', 'help'], ['auxilio', 'help'], ['/ayuda', 'help'], ['/help', 'help'], ['🆘', 'help'],
  ['¿por qué?', 'why'], ['por qué este ejercicio', 'why'], ['por qué menos peso', 'why'], ['por qué exactamente', 'why-exactly'],
  ['hoy no', 'not-today'], ['hoy no puedo', 'not-today'], ['mañana', 'not-today'], ['luego', 'later'], ['más tarde', 'later'],
  ['en 10 minutos', 'later'], ['ahora no', 'later'], ['listo', 'done'], ['hecho', 'done'], ['ya terminé', 'done'], ['terminé la serie', 'done'],
  ['saltar', 'skip'], ['siguiente', 'skip'], ['preparado', 'ready'], ['vamos', 'ready'], ['empezar', 'ready'], ['dale', 'ready'],
  ['ninguna', 'none'], ['ninguno de estos', 'none'], ['algo va mal', 'symptom'], ['algo anda mal', 'symptom'], ['síntoma', 'symptom'],
  ['me está pasando algo raro', 'symptom'], ['tengo miedo', 'symptom'], ['qué me está pasando', 'symptom'],
  ['pausa', 'pause'], ['me voy de vacaciones', 'pause'], ['estoy de viaje', 'pause'], ['necesito un descanso', 'pause'],
  ['cambiar la hora', 'change-times'], ['quiero cambiar los horarios', 'change-times'], ['otro horario', 'change-times'],
  ['zona horaria', 'move-zone'], ['cambié de zona horaria', 'move-zone'], ['estoy en otro país', 'move-zone'],
  ['mensaje para mi fisio', 'write-therapist'], ['quiero hablar con mi terapeuta', 'write-therapist'], ['dile a mi fisio', 'write-therapist'],
  ['quiero dejar el programa', 'withdraw'], ['darme de baja', 'withdraw'], ['retiro mi consentimiento', 'withdraw'], ['borrar mis datos', 'withdraw'],
  // What the help of the wording tells people to type.
  ['Algo va mal', 'symptom'], ['parar', 'stop'], ['Empezar', 'ready'], ['mensaje a mi terapeuta', 'write-therapist'],
  ['para', 'stop'], ['hola', null], ['', null], ['no estoy listo', null], ['algo', null], ['definitivamente', null], ['no quiero', null],
]

const stops: readonly (readonly [string, boolean])[] = [
  ['para', true], ['PARA!!!', true], ['paraaa', true], ['para por favor', true], ['para para', true], ['basta', true], ['ya basta', true], ['alto', true],
  ['stop', true], ['quiero parar', true], ['podemos parar por favor', true], ['tuve que parar', true], ['no puedo más', true], ['me rindo', true],
  ['hasta aquí', true], ['lo dejo', true], ['no puedo seguir', true], ['detente', true], ['3, quiero parar', true], ['suficiente', true], ['🛑', true],
  ['basta no puedo respirar', true], ['no quiero seguir', true],
  ['para mañana', false], ['para el martes ya tengo la banda', false], ['para qué', false], ['para mí bien', false], ['no quiero parar', false],
  ['sin parar', false], ['no pares', false], ['no paré ni una vez', false], ['con eso basta', false], ['no es suficiente', false],
  ['cuándo paro', false], ['pude terminar bien', false], ['acabo de terminar', false], ['el hormigueo no para', false], ['3', false],
  ['no puedo hablar ahora', false], ['hoy por hoy bien', false],
]

const corrections: readonly (readonly [string, boolean])[] = [
  ['perdón, quise decir 2', true], ['quiero decir 4', true], ['me equivoqué, es 5', true], ['no espera, 3', true], ['3, digo 4', true], ['ups 4', true],
  ['mejor dicho 3', true], ['no, 3', true], ['3', false], ['no', false], ['2 o 3', false], ['sin dolor', false], ['me siento mejor', false],
]

const same: readonly (readonly [string, boolean])[] = [
  ['igual', true], ['igual que antes', true], ['lo mismo', true], ['como la anterior', true], ['lo mismo que antes', true], ['sin cambios', true],
  ['3', false], ['me da igual', false], ['bien', false],
]

describe('a reply in Spanish words', () => {
  it.each(yesNo)('awaiting yes or no, "%s" is %s', (text, value) => {
    expect(read(text, 'yesno').value).toBe(value)
  })

  it.each(commands)('"%s" is the command %s', (text, command) => {
    expect(read(text).command).toBe(command)
  })

  it.each(stops)('"%s" wants to stop: %s', (text, stop) => {
    expect(read(text).stop).toBe(stop)
  })

  it.each(corrections)('"%s" corrects an earlier answer: %s', (text, isCorrection) => {
    expect(read(text, 'pain').isCorrection).toBe(isCorrection)
  })

  it.each(same)('"%s" is the same as before: %s', (text, isSame) => {
    expect(read(text, 'pain').sameAsBefore).toBe(isSame)
  })
})
