import { describe, expect, it } from 'vitest'
import { signLevels } from '#src/conversation/reading/signs.ts'
import { readerOf, wordedSigns, type WordedSign } from '../reading-of.ts'

const { read, surely } = readerOf('es')

interface Row {
  readonly said: readonly string[]
  readonly denied: readonly string[]
}

/** The signs of the English test, with their sources there. The phrasings are our own, from memory of the language. */
const rows: Readonly<Record<WordedSign, Row>> = {
  'face-or-half-body-numbness': {
    said: ['se me durmió media cara', 'tengo los labios dormidos', 'me hormiguea la mejilla', 'no siento el lado izquierdo del cuerpo',
      'tengo el brazo y la pierna dormidos', 'la lengua se me adormeció', 'perdí la sensibilidad en la cara'],
    denied: ['no tengo la cara dormida', 'sin hormigueo en los labios', 'no se me duerme la cara'],
  },
  'sudden-weakness': {
    said: ['no puedo levantar el brazo', 'el brazo no me responde', 'me quedé sin fuerza en la mano', 'la pierna no me sostiene',
      'se me paralizó la mano', 'no puedo apretar el puño', 'creo que me está dando un ictus', 'de repente el brazo quedó flojo'],
    denied: ['no tengo debilidad en los brazos', 'sin debilidad', 'no he perdido fuerza en la mano'],
  },
  'drop-attack': {
    said: ['me desmayé', 'perdí el conocimiento', 'me caí redonda', 'se me doblaron las rodillas', 'me desperté en el suelo',
      'me desplomé de repente', 'quedé inconsciente', 'me dio un síncope'],
    denied: ['no me desmayé', 'nunca me he desmayado', 'sin desmayos', 'no perdí el conocimiento'],
  },
  'vision-loss-or-double': {
    said: ['veo doble', 'veo borroso', 'perdí la vista de un ojo', 'no veo por el ojo derecho', 'se me nubló la vista', 'todo se puso negro',
      'tengo visión doble', 'se me fue la vista'],
    denied: ['no veo doble', 'no tengo visión borrosa', 'sin visión doble'],
  },
  'speech-or-swallowing': {
    said: ['se me traba la lengua', 'no puedo tragar', 'no me salen las palabras', 'me cuesta hablar', 'arrastro las palabras',
      'hablo como si estuviera borracho', 'me atraganto con el agua'],
    denied: ['no me cuesta hablar', 'sin problemas para tragar', 'no se me traba la lengua'],
  },
  'face-droop': {
    said: ['se me cayó un lado de la cara', 'tengo la boca torcida', 'un párpado caído', 'no puedo cerrar el ojo', 'la sonrisa me sale torcida',
      'mi esposa dice que tengo la boca chueca', 'no puedo sonreír'],
    denied: ['no tengo la cara torcida', 'no se me cae el párpado'],
  },
  'spinning-lasting': {
    said: ['todo me da vueltas', 'el cuarto gira', 'tengo vértigo', 'llevo diez minutos mareada', 'no se me quita el mareo',
      'sigo mareado', 'mareo y se me duerme la mano', 'la habitación me da vueltas'],
    denied: ['no me da vueltas nada', 'sin vértigo', 'no tengo vértigos'],
  },
  'sudden-worst-headache': {
    said: ['el peor dolor de cabeza de mi vida', 'dolor de cabeza de golpe', 'de repente me dolió la cabeza muchísimo', 'me explotó la cabeza',
      'dolor de cabeza como un martillazo', 'cefalea súbita'],
    denied: ['no es el peor dolor de cabeza', 'ningún dolor de cabeza repentino'],
  },
  'chest-pain-or-breathless': {
    said: ['me duele el pecho', 'tengo opresión en el pecho', 'no puedo respirar', 'me falta el aire', 'me ahogo', 'me cuesta respirar',
      'una presión en el pecho', 'siento un peso en el pecho'],
    denied: ['no me duele el pecho', 'sin dolor en el pecho', 'no me falta el aire', 'respiro bien'],
  },
  'saddle-bladder-bowel': {
    said: ['no siento entre las piernas', 'me oriné encima', 'no puedo orinar', 'no controlo el pis', 'se me duermen las dos piernas',
      'no siento nada al limpiarme', 'se me escapa la orina', 'tengo dormida la entrepierna', 'no aguanto las ganas de hacer pis'],
    denied: ['no tengo incontinencia', 'no se me escapa el pis', 'sin problemas para orinar'],
  },
  'fever-stiff-neck': {
    said: ['fiebre y cuello rígido', 'tengo fiebre y no puedo doblar el cuello', 'fiebre. el cuello tieso.',
      'calentura y la nuca dura', 'fiebre y no puedo tocar el pecho con la barbilla'],
    denied: ['sin fiebre ni cuello rígido', 'el cuello rígido, sin fiebre'],
  },
  'dangerous-trauma': {
    said: ['me caí de la escalera', 'me atropelló un coche', 'me golpeé la cabeza', 'tuve un accidente de coche', 'rodé por las escaleras',
      'me caí de la bici', 'chocamos con el carro', 'me caí y se me duerme la mano', 'me di en la cabeza con la puerta'],
    denied: ['no me caí de la escalera', 'no me golpeé la cabeza', 'ningún accidente'],
  },
  'head-dropping': {
    said: ['se me cae la cabeza', 'no puedo sostener la cabeza', 'la cabeza se me va hacia adelante', 'no puedo levantar la cabeza',
      'la barbilla se me queda en el pecho'],
    denied: ['no se me cae la cabeza', 'sostengo la cabeza sin problemas'],
  },
  'self-harm': {
    said: ['no quiero vivir', 'quiero morirme', 'pienso en suicidarme', 'me quiero matar', 'todos estarían mejor sin mí', 'quiero hacerme daño',
      'me corté las venas', 'ojalá no despertara'],
    denied: ['no quiero morir', 'no pienso en suicidarme', 'sin ideas suicidas'],
  },
  'being-hurt': {
    said: ['mi marido me pega', 'me maltratan en casa', 'tengo miedo de mi pareja', 'mi hijo me empuja', 'alguien me golpeó',
      'no me siento segura en casa', 'mi novio me agarró del cuello'],
    denied: ['nadie me pega', 'no hay violencia doméstica', 'mi marido no me pega'],
  },
  'arm-numbness': {
    said: ['se me duerme la mano', 'hormigueo en los dedos', 'no siento el pulgar', 'tengo el brazo adormecido', 'me cosquillea el meñique',
      'tengo la mano acorchada', 'siento agujas en la mano', 'hormigueo'],
    denied: ['no tengo hormigueo', 'sin hormigueo en la mano', 'no se me duerme el brazo', 'no siento hormigueo'],
  },
  'slow-weakness': {
    said: ['el brazo cada vez más débil', 'poco a poco pierdo fuerza en la mano', 'la mano se me va poniendo floja con los meses',
      'cada semana tengo menos fuerza en el brazo', 'la pierna se debilita poco a poco'],
    denied: ['no pierdo fuerza en la mano poco a poco', 'sin debilidad progresiva en el brazo'],
  },
  'clumsy-hands': {
    said: ['tengo las manos torpes', 'se me caen las cosas', 'no puedo abrocharme los botones', 'las dos manos dormidas', 'mi letra ha empeorado',
      'me cuesta escribir', 'ya no puedo abotonarme la camisa'],
    denied: ['no tengo las manos torpes', 'no se me caen las cosas'],
  },
  'electric-shock': {
    said: ['una descarga por la espalda', 'corrientazo al bajar la cabeza', 'un calambrazo por la columna', 'como electricidad cuando miro abajo',
      'me recorre una corriente por la espalda', 'un latigazo al doblar el cuello'],
    denied: ['no siento descargas eléctricas', 'sin calambrazos'],
  },
  'unsteady-walking': {
    said: ['camino como borracha', 'pierdo el equilibrio', 'me tambaleo al caminar', 'no puedo caminar derecho', 'me cuesta caminar',
      'me voy de lado al andar', 'me tropiezo con todo'],
    denied: ['no pierdo el equilibrio', 'sin problemas para caminar', 'no me tambaleo'],
  },
  'light-headed': {
    said: ['estoy mareado', 'me mareé', 'siento mareo', 'tengo náuseas', 'se me va la cabeza', 'casi me desmayo', 'estoy medio atontada',
      'me dio un mareo'],
    denied: ['no me mareo', 'sin mareos', 'no tengo náuseas', 'nada de mareo'],
  },
  'pain-unlike-any': {
    said: ['nunca había tenido un dolor así', 'es un dolor distinto', 'un dolor de cabeza como nunca', 'un dolor nuevo y raro',
      'jamás me había dolido así la cabeza', 'dolor de cabeza terrible'],
    denied: ['no es un dolor nuevo', 'no tengo ningún dolor raro'],
  },
  'pulsing-ear-noise': {
    said: ['oigo mi pulso en el oído', 'me late el oído', 'un zumbido que late en el oído', 'escucho el corazón en la oreja',
      'tengo un zumbido pulsátil'],
    denied: ['no oigo latidos en el oído', 'no me late el oído'],
  },
  'other-trauma': {
    said: ['me caí', 'me tropecé en la calle', 'resbalé en la ducha', 'me di un golpe en el cuello', 'tuve una caída', 'me pegué con la puerta'],
    denied: ['no me caí', 'sin caídas ni golpes', 'no me he golpeado'],
  },
  'wound-change': {
    said: ['la herida supura', 'la cicatriz está roja', 'me sale pus de la herida', 'se me abrieron los puntos', 'la herida huele mal'],
    denied: ['la herida no supura', 'la cicatriz no está roja'],
  },
  'severe-pain-now': {
    said: ['tengo un dolor insoportable', 'me muero de dolor', 'el dolor es horrible no lo aguanto', 'no aguanto el dolor, es brutal',
      'un dolor atroz en el cuello'],
    denied: ['no tengo un dolor insoportable', 'el dolor no es insoportable'],
  },
  'two-illness-signs': {
    said: ['tengo fiebre y me siento mal', 'he bajado de peso y me despierta el dolor', 'fiebre y sudores nocturnos',
      'estoy enfermo y con escalofríos', 'perdí 6 kilos y tengo fiebre'],
    denied: ['ni fiebre ni pérdida de peso', 'no tengo fiebre ni me siento mal'],
  },
  'weight-loss': {
    said: ['he bajado mucho de peso', 'estoy perdiendo peso', 'perdí 5 kilos', 'he adelgazado sin querer', 'estoy adelgazando'],
    denied: ['no he perdido peso', 'no estoy adelgazando'],
  },
  'night-pain': {
    said: ['el dolor me despierta', 'me duele por la noche', 'no puedo dormir del dolor', 'dolor nocturno', 'me despierto por el dolor'],
    denied: ['no me duele por la noche', 'el dolor no me despierta'],
  },
  fever: {
    said: ['tengo fiebre', 'tengo calentura', 'escalofríos desde anoche', 'estoy con 38 de fiebre', 'me subió la fiebre'],
    denied: ['no tengo fiebre', 'sin fiebre', 'ni fiebre ni nada'],
  },
  'feeling-ill': {
    said: ['me siento mal', 'no me encuentro bien', 'tengo gripe', 'estoy enferma', 'me encuentro fatal'],
    denied: ['no estoy enfermo', 'no me siento mal'],
  },
}

const table = (kind: keyof Row): readonly (readonly [WordedSign, string])[] =>
  wordedSigns.flatMap((sign) => rows[sign][kind].map((text) => [sign, text] as const))

describe('a sign in Spanish words', () => {
  it.each(table('said'))('%s is heard in "%s"', (sign, text) => {
    expect(read(text).redFlags).toContainEqual({ level: signLevels[sign], sign })
  })

  it.each(table('denied'))('%s is not heard in "%s"', (_, text) => {
    expect(surely(text)).toEqual([])
  })

  it.each(wordedSigns)('%s is tested by five phrasings and two denials at least', (sign) => {
    expect(rows[sign].said.length).toBeGreaterThanOrEqual(5)
    expect(rows[sign].denied.length).toBeGreaterThanOrEqual(2)
  })

  it.each(['pain', 'control', 'reserve', 'yesno', 'nothing'] as const)('is heard while %s is awaited, and is no value', (awaiting) => {
    const { value, redFlags, alsoTold } = read('se me durmió la mano en la 3', awaiting)
    expect({ value, redFlags, alsoTold }).toEqual({
      value: null,
      redFlags: [{ level: 'urgent', sign: 'arm-numbness' }],
      alsoTold: { control: null, reserve: null, isUnfinished: false },
    })
  })

  it('comes worst level first, each sign once', () => {
    expect(surely('tengo fiebre, hormigueo en la mano, hormigueo también en los dedos, y veo doble')).toEqual(
      ['vision-loss-or-double', 'arm-numbness', 'fever'])
  })
})
