import { describe, expect, it } from 'vitest'
import { readerOf } from '../reading-of.ts'

const { read, perhaps, surely } = readerOf('es')

// The phrasings are our own, from memory of the language as it is spoken in Spain, Mexico, Colombia and Argentina.
const answers = [
  { awaiting: 'pain', value: 2, text: 'los músculos a 6 pero es del esfuerzo, dolor 2' },
  { awaiting: 'pain', value: 2, text: 'músculos 6, dolor 2' },
  { awaiting: 'pain', value: 1, text: 'esfuerzo 8, dolor 1' },
  { awaiting: 'pain', value: 3, text: 'de esfuerzo un 7 y de dolor un 3' },
  { awaiting: 'pain', value: 1, text: 'uy el 9 fue sin querer, es 1' },
  { awaiting: 'pain', value: 0, text: 'nulo' },
  { awaiting: 'pain', value: 0, text: 'ni tantito' },
  { awaiting: 'pain', value: 4, text: 'cuatro de dolor, cansancio siete' },
  { awaiting: 'reserve', value: 6, text: 'media docena' },
  { awaiting: 'reserve', value: 12, text: 'una docena' },
  { awaiting: 'reserve', value: 2, text: 'un parcito' },
  { awaiting: 'reserve', value: 2, text: 'doss' },
  { awaiting: 'reserve', value: 2, text: 'un par' },
  { awaiting: 'reserve', value: 0, text: 'ya no daba ni una' },
  { awaiting: 'control', value: 'steady', text: 'me sentí fuerte como un toro' },
  { awaiting: 'control', value: 'lost', text: 'sin control ninguno' },
  { awaiting: 'control', value: 'steady', text: 'que yo notara no' },
  { awaiting: 'control', value: 'steady', text: 'quedó de diez' },
  { awaiting: 'control', value: 'steady', text: 'rebien' },
  { awaiting: 'control', value: 'steady', text: 'a toda madre' },
  { awaiting: 'control', value: 'steady', text: 'de pelos' },
  { awaiting: 'control', value: 'steady', text: 'salió joya' },
  { awaiting: 'control', value: 'steady', text: 'estuvo bacano' },
  { awaiting: 'control', value: 'steady', text: 'niquelado' },
  { awaiting: 'control', value: 'steady', text: 'todo en orden, quieto' },
  { awaiting: 'control', value: 'steady', text: 'ni me moví' },
  { awaiting: 'control', value: 'lost', text: 'se me fue todo el cuerpo' },
  { awaiting: 'control', value: 'lost', text: 'me ayudé con los hombros un montón' },
  { awaiting: 'control', value: 'lost', text: 'un despelote' },
  { awaiting: 'control', value: 'lost', text: 'perdí el control en todas' },
  { awaiting: 'control', value: 'lost', text: 'me bamboleé por todos lados' },
  { awaiting: 'control', value: 'shaky', text: 'más o menos nomás' },
  { awaiting: 'control', value: 'shaky', text: 'me tembló tantito' },
  { awaiting: 'yesno', value: true, text: 'va' },
  { awaiting: 'yesno', value: true, text: 'simón' },
  { awaiting: 'yesno', value: true, text: 'de una' },
  { awaiting: 'yesno', value: true, text: 'dale' },
  { awaiting: 'yesno', value: true, text: 'órale pues' },
  { awaiting: 'yesno', value: true, text: 'sí pues' },
  { awaiting: 'yesno', value: true, text: 'ajá' },
  { awaiting: 'yesno', value: true, text: 'claro que sí' },
  { awaiting: 'yesno', value: true, text: 'obvio' },
  { awaiting: 'yesno', value: true, text: 'hágale' },
  { awaiting: 'yesno', value: true, text: 'sí po' },
  { awaiting: 'yesno', value: true, text: 'de ley' },
  { awaiting: 'yesno', value: true, text: 'efectivamente' },
  { awaiting: 'yesno', value: true, text: 'sipirili' },
  { awaiting: 'yesno', value: false, text: 'nel' },
  { awaiting: 'yesno', value: false, text: 'nones' },
  { awaiting: 'yesno', value: false, text: 'ni de coña' },
  { awaiting: 'yesno', value: false, text: 'nanay' },
  { awaiting: 'yesno', value: false, text: 'para nada' },
  { awaiting: 'yesno', value: false, text: 'ni a palos' },
  { awaiting: 'yesno', value: false, text: 'qué va' },
  { awaiting: 'yesno', value: false, text: 'no che' },
  { awaiting: 'yesno', value: false, text: 'nah' },
  { awaiting: 'yesno', value: false, text: 'nelson' },
  { awaiting: 'yesno', value: false, text: 'Ningún mareo.' },
] as const

describe('answers in the words of a region', () => {
  it.each(answers)('$awaiting, "$text" is $value', ({ awaiting, value, text }) => {
    expect(read(text, awaiting)).toMatchObject({ value, redFlags: [], unsureFlags: [] })
  })
})

const vague: Readonly<Record<string, readonly string[]>> = {
  'wound-change': [
    'desde la operación noto algo nuevo y malo en el cuello', 'tengo un problema nuevo después de la cirugía de cuello',
    'desde que me operaron siento algo raro nuevo en el cuello',
  ],
  'arm-numbness': [
    'tengo las manos raras', 'siento el brazo raro', 'el brazo lo siento como ajeno', 'si se me duerme la mano sigo o paro',
  ],
  'vision-loss-or-double': [
    'los ojos cansados o algo', 'veo raro', 'tengo la vista cansada',
  ],
  'self-harm': [
    'estoy muy bajoneada estos días', 'ando muy deprimido', 'estoy muy triste y no tengo ganas de nada', 'me siento vacía',
    'no tengo ánimo para nada estos días', 'estoy en un pozo',
  ],
  'being-hurt': [
    'en casa la cosa está tensa', 'en mi casa hay muchas peleas', 'mi marido está muy agresivo',
  ],
  'saddle-bladder-bowel': [
    'ando estreñida desde los calmantes',
  ],
  'speech-or-swallowing': [
    'noto la garganta rara al meter la barbilla', 'siento un nudo en la garganta',
  ],
  'sudden-weakness': [
    'me preocupa que un día el brazo no me responda',
  ],
  'chest-pain-or-breathless': [
    'sí claro, se me salió el corazón por la boca, durísimo este', 'estoy un poco agitada', 'tengo el pecho raro',
  ],
  'dangerous-trauma': [
    'en 2015 tuve un choque muy fuerte',
  ],
  fever: [
    'los niños están todos con fiebre',
  ],
}

describe('vague words, low mood and trouble at home', () => {
  const rows = Object.entries(vague).flatMap(([sign, said]) => said.map((text) => ({ sign, text })))

  it.each(rows)('"$text" makes the bot ask about $sign at least', ({ sign, text }) => {
    expect([...surely(text), ...perhaps(text)]).toContain(sign)
  })
})
