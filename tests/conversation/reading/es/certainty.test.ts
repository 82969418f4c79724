import { describe, expect, it } from 'vitest'
import { readerOf } from '../reading-of.ts'

const { surely, perhaps } = readerOf('es')

/** "No" is both "no" and "not": a mark, a contrast or a verb of its own after "y" decides. */
const sure: readonly (readonly [string, readonly string[]])[] = [
  ['no, me mareo', ['light-headed']],
  ['no. mareo.', ['light-headed']],
  ['no, mareada', ['light-headed']],
  ['no tengo mareo y se me duerme la mano', ['arm-numbness']],
  ['no tengo mareo pero se me duerme la mano', ['arm-numbness']],
  ['no tengo mareo, pero sí hormigueo', ['arm-numbness']],
  ['no tengo hormigueo y veo doble', ['vision-loss-or-double']],
  ['no siento la mano', ['arm-numbness']],
  ['no me siento los dedos', ['arm-numbness']],
  ['no puedo mover el brazo', ['sudden-weakness']],
  ['no veo bien', ['vision-loss-or-double']],
  ['no puedo tragar', ['speech-or-swallowing']],
  ['no puedo respirar', ['chest-pain-or-breathless']],
  ['no solo mareo, también hormigueo en la mano', ['spinning-lasting', 'arm-numbness']],
  ['no sé por qué me mareo', ['light-headed']],
  ['no terminé porque me mareé', ['light-headed']],
  ['no lo pude hacer, se me duerme el brazo', ['arm-numbness']],
  ['no se me quita el hormigueo', ['arm-numbness']],
  ['el hormigueo no se me va', ['arm-numbness']],
  ['sin duda se me duerme la mano', ['arm-numbness']],
  ['¿mareo? sí', ['light-headed']],
  ['¿hormigueo? no. ¿mareo? sí.', ['light-headed']],
  ['la cara bien pero el brazo dormido', ['arm-numbness']],
  ['se me duerme la mano, ¿qué hago?', ['arm-numbness']],
  ['¿qué hago? se me duerme la mano', ['arm-numbness']],
  ['nunca había estado tan mareado', ['light-headed']],
  ['mi esposa dice que arrastro las palabras', ['speech-or-swallowing']],
  ['si miro arriba se me duerme el brazo', ['arm-numbness']],
  ['Mano: adormecida', ['arm-numbness']],
  ['el dolor en el pecho es el de siempre', ['chest-pain-or-breathless']],
  ['paré antes\nse me duerme la mano', ['arm-numbness']],
  ['SE ME DUERME LA MANO!!!', ['arm-numbness']],
  ['xq se me duerme la mano tb cdo descanso', ['arm-numbness']],
  ['desde hace dos días me hormiguea la mano', ['arm-numbness']],
  ['me da mareo', ['light-headed']],
  ['esto me marea mucho, estoy mareadísima', ['light-headed']],
]

const denied: readonly string[] = [
  'no me mareo', 'no mareo', 'no tengo mareo', 'ni mareo ni hormigueo', 'no siento hormigueo', 'no siento ningún hormigueo',
  'no tengo nada de mareo', 'nada de mareo', 'sin mareo', 'sin mareos ni hormigueo', 'sin hormigueo sin mareos sin nada',
  'no tengo hormigueo tampoco', 'tampoco tengo mareo', 'tampoco me mareo', 'nunca me mareo', 'nunca he tenido mareos',
  'jamás me he desmayado', 'para nada mareado', 'no estoy mareado para nada', 'no me he mareado', 'no me maree',
  'ningún hormigueo', 'ninguna debilidad en los brazos', 'cero mareo', '0 hormigueo', 'mareo: no', 'mareo: ninguno', 'mareo 0',
  '¿mareo? no', 'mareo no', 'no, no me mareo', 'no tengo hormigueo, mareo ni debilidad', 'no tengo mareo ni hormigueo en la mano',
  'no tengo ni mareo ni náuseas', 'no se me duerme la mano', 'no se me duermen las manos ni los pies', 'no creo que sea mareo',
  'no puedo decir que esté mareado', 'no noté hormigueo', 'no he notado ningún hormigueo', 'no hubo mareo', 'no hay mareo ni nada',
  'no veo doble', 'no me cuesta tragar', 'no me duele el pecho', 'no se me traba la lengua', 'en ningún momento me mareé',
  'nadie me pega', 'siento las manos perfectamente', 'los brazos están bien', 'trago bien', 'no me falta el aire',
  'no tengo fiebre ni escalofríos', 'no tuve mareo', 'no tengo síntomas de mareo', 'no, siento las manos bien',
]

const unsure: readonly (readonly [string, readonly string[]])[] = [
  ['ya no me mareo', ['light-headed']],
  ['no me mareo mucho', ['light-headed']],
  ['no estoy muy mareada', ['light-headed']],
  ['no tan mareado', ['light-headed']],
  ['ya no tengo hormigueo', ['arm-numbness']],
  ['el hormigueo ya se me pasó', ['arm-numbness']],
  ['el mareo desapareció', ['light-headed']],
  ['el hormigueo desapareció', ['arm-numbness']],
  ['¿mareo?', ['light-headed']],
  ['¿es normal el hormigueo?', ['arm-numbness']],
  ['¿puede causar mareo?', ['light-headed']],
  ['qué hago si me mareo', ['light-headed']],
  ['y si me mareo?', ['light-headed']],
  ['si tengo mareo paro', ['light-headed']],
  ['tengo miedo de marearme', ['light-headed']],
  ['me da miedo que se me duerma la mano', ['arm-numbness']],
  ['no sé si estoy mareado', ['light-headed']],
  ['mi madre está mareada', ['light-headed']],
  ['a mi madre se le duerme la mano', ['arm-numbness']],
  ['mi hermana se mareó', ['light-headed']],
  ['mi amiga tiene dolor en el pecho', ['chest-pain-or-breathless']],
  ['hace diez años tuve hormigueo', ['arm-numbness']],
  ['el año pasado tuve mareos', ['light-headed']],
  ['antes se me dormía la mano', ['arm-numbness']],
  ['el hormigueo de siempre', ['arm-numbness']],
  ['hormigueo en la mano como siempre', ['arm-numbness']],
  ['genial, lo próximo será un infarto', ['chest-pain-or-breathless']],
  ['por si me mareo', ['light-headed']],
  ['quizás mareo', ['light-headed']],
  ['me dijeron que podía dar mareo', ['light-headed']],
  ['se me durmió la mano por la postura', ['arm-numbness']],
  ['siento la cara rara', ['face-or-half-body-numbness']],
  ['leí que puede dar hormigueo', ['arm-numbness']],
]

const neither: readonly string[] = [
  'me muero de risa', 'me muero de hambre', 'muerto de cansancio', 'se me cae la cara de vergüenza', 'me quedé dormido',
  'se me duerme el bebé', 'me meo de risa', 'me pega el sol', 'ataque de risa', 'una vez', 'se me cayó la banda', 'se me murió el móvil',
  'caí en la cuenta', 'me cae bien', 'fue un dolor de cabeza montar la silla', 'punto de vista', 'el doble de peso', 'estoy hecha polvo',
  'cara a cara', 'a primera vista', 'te veo mañana', 'me corté el pelo', 'la rompí hoy', 'vuelta a casa', 'doy una vuelta',
  'serie pesada', 'no puedo hablar ahora', 'luego hablamos', 'hace frío', 'buena marca', 'me da igual', 'da igual', 'qué pesado',
  'caigo a las ocho en casa', 'fiebre del oro', 'día de piernas', 'gracias por la ayuda', 'de nuevo', 'me duele el cuello',
  'no veo el botón', 'levanté los brazos', 'moví la cabeza', 'respiro hondo', 'voy al baño', 'me siento fuerte', 'sigo bien',
]

describe('whether a sign is said to be so, in Spanish', () => {
  it.each(sure)('"%s" alarms', (text, signs) => {
    expect(surely(text)).toEqual(signs)
  })

  it.each(denied.map((text) => [text]))('"%s" denies', (text) => {
    expect([surely(text), perhaps(text)]).toEqual([[], []])
  })

  it.each(unsure)('"%s" asks', (text, signs) => {
    expect([surely(text), perhaps(text)]).toEqual([[], signs])
  })

  it.each(neither.map((text) => [text]))('"%s" speaks of no sign', (text) => {
    expect([surely(text), perhaps(text)]).toEqual([[], []])
  })

  it('holds sixty denials at least', () => {
    expect(denied.length + unsure.filter(([text]) => /\bn[oi]\b/u.test(text)).length).toBeGreaterThanOrEqual(60)
  })
})
