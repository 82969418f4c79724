import type { Occurrence } from './find-phrases.ts'
import { ownTokens, type MarkedText } from './marked-text.ts'

/** Fever in °C and in °F; from 38 °C on: common practice, no source. Above the upper ends nobody lives. */
const feverRanges = [[38, 42], [100.4, 107.6]] as const

/** Signs beside which a number alone is a temperature; none of them needs it to be one. */
const besideFever: ReadonlySet<string> = new Set(['stiff-neck', 'fever', 'ill', 'poorly'])

/**
 * A temperature told as a number alone ("38.9, and I can't bend my neck"). Only beside a stiff neck, a feeling of illness or a
 * word of heat is a number taken for one, and not where it counts something else ("40 seconds").
 */
export function bareTemperatures({ found, symptoms, isSymptomWord }: MarkedText): readonly Occurrence[] {
  if (!symptoms.some(({ list }) => besideFever.has(list)) && found.all('body-heat').length === 0) return []
  const counted = new Set(found.all('other-number').flatMap(ownTokens))
  return found.tokens.flatMap((token, start) => {
    const isFever = token.kind === 'number' && feverRanges.some(([least, most]) => token.value >= least && token.value <= most)
    if (!isFever || counted.has(start) || isSymptomWord(start)) return []
    return [{ list: 'fever', form: 'names', start, end: start + 1, gaps: [] } as const]
  })
}
