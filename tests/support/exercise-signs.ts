import type { Side } from '#src/domain/direction.ts'

/** What is looked for in a language's words; a further language needs a row of its own, in the order of the English one. */
export interface Signs {
  readonly side: Record<Side, RegExp>
  readonly cautions: Record<Caution, RegExp>
}

export const cautions = [
  'pain limit',
  'own lower limit',
  'faint',
  'numb or weak',
  'speech or balance',
  'sudden headache',
  'swallow or breathe',
  'spinning',
  'eyes',
  'way out',
  'somebody near',
  'not alone',
  'phone',
  'look at the band',
  'must not slip or give',
  'not worn if torn',
  'never higher or lower',
  'off eyes or throat',
  'off the jaw',
  'off the neck',
  'hand does not reach',
  'ask or tell the therapist',
  'no holding the breath',
  'never at the end',
  'one second',
  'two seconds',
  'three seconds',
  'a third',
] as const
export type Caution = (typeof cautions)[number]

const signs: Record<string, Signs> = {
  en: {
    side: { left: /\bleft\b/g, right: /\bright\b/g },
    cautions: {
      'pain limit': /above 5 out of 10/,
      'own lower limit': /therapist set a lower limit/,
      faint: /dizzy, sick or faint/,
      'numb or weak': /numb, tingles or feels weak/,
      'speech or balance': /speech or balance/,
      'sudden headache': /bad headache starts all at once/,
      'swallow or breathe': /hard to swallow or to get your breath/,
      spinning: /room spins/,
      eyes: /flashes, spots or a shadow|Your sight/,
      'way out': /need to get out|can get out at any time/,
      'somebody near': /somebody is within call/,
      'not alone': /Do not do this one alone/,
      phone: /Keep your phone in reach/,
      'look at the band': /a nick, a crack or a pale thin spot, do not use it/,
      'must not slip or give': /must not slip or give/,
      'not worn if torn': /torn or loose, do not use it/,
      'never higher or lower': /never lower/,
      'off eyes or throat': /may lie over your eyes|not on your eyes or ears/,
      'off the jaw': /off your jaw and your eye/,
      'off the neck': /off your neck|not (on )?your neck/,
      'hand does not reach': /does not reach with ease, stop/,
      'ask or tell the therapist': /(ask|Tell) your therapist/,
      'no holding the breath': /Do not hold (your breath|it)/,
      'never at the end': /Never do this at the end/,
      'one second': /\bone second\b/,
      'two seconds': /\btwo seconds\b/,
      'three seconds': /\bthree seconds\b/,
      'a third': /\ba third of the way\b/i,
    },
  },
  es: {
    side: { left: /\bizquierd[oa]\b/g, right: /\bderech[oa]\b/g },
    cautions: {
      'pain limit': /pasa de 5 de 10/,
      'own lower limit': /terapeuta puso un límite más bajo/,
      faint: /Te mareas, tienes náuseas o sientes que te vas a desmayar/,
      'numb or weak': /se duerme, hormiguea o pierde fuerza/,
      'speech or balance': /en el habla o en el equilibrio/,
      'sudden headache': /De repente empieza un fuerte dolor de cabeza/,
      'swallow or breathe': /Te cuesta tragar o respirar/,
      spinning: /Todo te da vueltas/,
      eyes: /destellos, manchas o una sombra|en la vista/,
      'way out': /necesitas dejarlo antes|Puedes dejarlo en cualquier momento/,
      'somebody near': /alguien cerca que te oiga si llamas/,
      'not alone': /No hagas este ejercicio a solas/,
      phone: /Ten el teléfono a mano/,
      'look at the band': /un corte, una grieta o una zona fina y pálida, no la uses/,
      'must not slip or give': /No debe resbalar ni ceder/,
      'not worn if torn': /roto o flojo, no uses/,
      'never higher or lower': /nunca más abajo/,
      'off eyes or throat': /debe quedar sobre los ojos|sin tocar los ojos ni las orejas/,
      'off the jaw': /No toques la mandíbula ni el ojo/,
      'off the neck': /No las? pongas en el cuello|no (en )?el cuello/,
      'hand does not reach': /no llega con facilidad, para/,
      'ask or tell the therapist': /pregunta a tu terapeuta|Díselo a tu terapeuta/,
      'no holding the breath': /No aguantes la respiración/,
      'never at the end': /Nunca lo hagas con el cuello girado al máximo/,
      'one second': /\bun segundo\b/,
      'two seconds': /\bdos segundos\b/,
      'three seconds': /\btres segundos\b/,
      'a third': /\bun tercio\b/i,
    },
  },
}

export function signsOf(language: string): Signs {
  const own = signs[language]
  if (own === undefined) throw new Error(`no signs for "${language}": add a row`)
  return own
}
