// Most phrases begin in a text and end elsewhere: "my arm" is often said, and seldom "my arm … asleep". Whether the words that a
// phrase needs stand near enough is asked so often that the numbers for it lie close together, in one piece of memory.

/** What a phrase needs besides its beginning. */
export interface Needs {
  /** Of each of these one word at least. */
  readonly words: readonly (readonly string[])[]
  /** In tokens, with its gaps: nothing that it needs stands further on. */
  readonly longest: number
}

export interface Sieve {
  /** For each word its number; for words that no phrase needs, one that nothing equals. */
  numbersOf(words: readonly string[]): Int32Array
  /** Whether a phrase may begin at a word: all that it needs follows soon enough. */
  mayBegin(phrase: number, start: number, numbers: Int32Array): boolean
}

const noNumber = -1

/** `needs` by the numbers of the phrases. */
export function createSieve(needs: readonly Needs[]): Sieve {
  const numberOf = new Map<string, number>()
  for (const word of needs.flatMap(({ words }) => words.flat())) if (!numberOf.has(word)) numberOf.set(word, numberOf.size)
  // For each phrase how many sets it has, and for each set how many words and which.
  const written = needs.map(({ words }) => [words.length, ...words.flatMap((set) => [set.length, ...set.map((word) => numberOf.get(word) ?? noNumber)])])
  const pool = Int32Array.from(written.flat())
  const begins = new Int32Array(needs.length)
  written.slice(0, -1).forEach((numbers, phrase) => (begins[phrase + 1] = (begins[phrase] ?? 0) + numbers.length))
  const longest = Int32Array.from(needs, (one) => one.longest)
  return {
    numbersOf: (words) => Int32Array.from(words, (word) => numberOf.get(word) ?? noNumber),
    mayBegin(phrase, start, numbers) {
      const end = Math.min(numbers.length, start + (longest[phrase] ?? 0))
      let at = begins[phrase] ?? 0
      let sets = pool[at] ?? 0
      for (at += 1; sets > 0; sets -= 1) {
        const first = at + 1
        at = first + (pool[at] ?? 0)
        if (!isOneOf(first, at, start, end, numbers)) return false
      }
      return true
    },
  }

  function isOneOf(first: number, last: number, start: number, end: number, numbers: Int32Array): boolean {
    for (let index = start; index < end; index += 1) {
      const number = numbers[index]
      for (let one = first; one < last; one += 1) if (pool[one] === number) return true
    }
    return false
  }
}
