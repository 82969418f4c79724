/** The counts a readability formula works on. */
export interface TextCounts {
  readonly words: number
  readonly sentences: number
  readonly syllables: number
}

/** Flesch–Kincaid grade level (Kincaid 1975; coefficients as in PMC9971903, table 2, whose variable labels are swapped). */
export function gradeOf({ words, sentences, syllables }: TextCounts): number {
  return 0.39 * (words / sentences) + 11.8 * (syllables / words) - 15.59
}

/** Flesch reading ease, from the same table. */
export function easeOf({ words, sentences, syllables }: TextCounts): number {
  return 206.835 - 1.015 * (words / sentences) - 84.6 * (syllables / words)
}

/**
 * Perspicuity of a Spanish text (Szigriszt-Pazos 1993), which the INFLESZ scale puts into words. Higher is easier; about 0 to
 * 100 for prose, beyond it for very short texts.
 */
export function perspicuityOf({ words, sentences, syllables }: TextCounts): number {
  return 206.835 - 62.3 * (syllables / words) - words / sentences
}

/**
 * Reading ease of a Spanish text (Fernández Huerta 1959), on the scale of Flesch. Its second term is often printed with the
 * sentences of a hundred words, so that longer sentences would read more easily: it goes by the words of a sentence.
 */
export function spanishEaseOf({ words, sentences, syllables }: TextCounts): number {
  return 206.84 - 60 * (syllables / words) - 1.02 * (words / sentences)
}

/** `syllablesIn` counts the syllables of one word in the text's language; English if left out. */
export function countText(text: string, syllablesIn: (word: string) => number = countSyllables): TextCounts {
  const words = text.match(/[\p{L}\p{N}]+(['’-][\p{L}\p{N}]+)*/gu) ?? []
  const sentences = text.match(/[^.!?]+[.!?]+/g) ?? []
  return {
    words: words.length,
    sentences: Math.max(1, sentences.length),
    syllables: words.reduce((sum, word) => sum + syllablesIn(word), 0),
  }
}

/**
 * Groups of vowels, less the silent endings; a rule of thumb without a dictionary. Counters of this kind disagree with
 * each other by up to a grade on the same text.
 */
export function countSyllables(word: string): number {
  return word
    .toLowerCase()
    .split(/[-’']/)
    .reduce((sum, part) => sum + countPart(part), 0)
}

function countPart(part: string): number {
  if (/^\d+$/.test(part)) return part.length
  const letters = part.replace(/[^a-z]/g, '')
  // What is left of "it's" and "you'll" after the apostrophe has no syllable of its own.
  if (/^(|s|t|d|m|ll|re|ve)$/.test(letters)) return 0
  const voiced = letters
    .replace(/([aeouy])ing$/, '$1 ing')
    .replace(/(?<=[^aeiouylrszxcgh])es$|(?<=[^aeiouytd])ed$|(?<=[^aeiouyl])e$|(?<=[aeiouy]l)e$/, '')
    .replace(/^y/, '')
  return Math.max(1, (voiced.match(/[aeiouy]+/g) ?? []).length)
}
