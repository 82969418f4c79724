const open = 'aeoáéó'
const vowels = `${open}iuíú`

/**
 * Syllables as Spanish spelling divides words: vowels that touch make one syllable, unless both are open, an accented í or ú
 * stands beside an open one, or a closed one is doubled; an h between them divides nothing. Prefixes are not split off.
 * A number counts two syllables a digit, about what its name has; a unit such as kg counts one.
 */
export function countSpanishSyllables(word: string): number {
  return word
    .toLowerCase()
    .normalize('NFC')
    .split(/[-’']/)
    .reduce((sum, part) => sum + countPart(part), 0)
}

function countPart(part: string): number {
  const digits = part.match(/\d/g)?.length ?? 0
  // A silent u (que, gui), a ü and a y need no care: beside a vowel they add no syllable, and "y" alone is at least one.
  const runs = part.replaceAll('h', '').match(new RegExp(`[${vowels}]+`, 'g')) ?? []
  const syllables = runs.reduce((sum, run) => sum + nucleiOf(run), 0) + 2 * digits
  return part === '' ? 0 : Math.max(1, syllables)
}

function nucleiOf(run: string): number {
  const letters = [...run]
  return letters.filter((letter, index) => index === 0 || isParted(letters, index)).length
}

/** Whether a new syllable begins with the vowel at `index`. */
function isParted(letters: readonly string[], index: number): boolean {
  const before = letters[index - 1] ?? ''
  const vowel = letters[index] ?? ''
  const after = letters[index + 1] ?? ''
  if (open.includes(before)) {
    // A closed vowel between two open ones goes with the second: ca-ca-hue-te.
    return open.includes(vowel) || 'íú'.includes(vowel) || (after !== '' && open.includes(after))
  }
  return open.includes(vowel) ? 'íú'.includes(before) : plain(before) === plain(vowel)
}

function plain(letter: string): string {
  return letter === 'í' ? 'i' : letter === 'ú' ? 'u' : letter
}
