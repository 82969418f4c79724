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
  /** One text at a time: what was begun before cannot be gone on with. */
  over(words: readonly string[]): Sifting
}

/** Goes through the words of one text, from the last to the first. */
export interface Sifting {
  moveTo(start: number): void
  /** Whether a phrase, by its number, may begin where it has moved to: all that it needs follows soon enough. */
  mayBegin(phrase: number): boolean
}

/** `needs` by the numbers of the phrases. */
export function createSieve(needs: readonly Needs[]): Sieve {
  const numberOf = new Map<string, number>()
  for (const word of needs.flatMap(({ words }) => words.flat())) if (!numberOf.has(word)) numberOf.set(word, numberOf.size)
  // For each phrase how far it reaches and how many sets it has, and for each set how many words and which.
  const written = needs.map(({ words, longest }) => [
    longest,
    words.length,
    ...words.flatMap((set) => [set.length, ...set.map((word) => numberOf.get(word) ?? 0)]),
  ])
  const pool = Int32Array.from(written.flat())
  const begins = new Int32Array(needs.length)
  written.slice(0, -1).forEach((numbers, phrase) => (begins[phrase + 1] = (begins[phrase] ?? 0) + numbers.length))
  // Where each word stands next, seen from the start. Kept, since there are thousands and a message has ten.
  const next = new Int32Array(numberOf.size).fill(farAway)
  let met: number[] = []
  return {
    over(words) {
      for (const number of met) next[number] = farAway
      met = []
      let start = words.length
      return {
        moveTo(index) {
          start = index
          const number = numberOf.get(words[index] ?? '')
          if (number === undefined) return
          next[number] = index
          met.push(number)
        },
        mayBegin(phrase) {
          let at = begins[phrase] ?? 0
          const end = start + (pool[at] ?? 0)
          let sets = pool[at + 1] ?? 0
          at += 2
          for (; sets > 0; sets -= 1) {
            const last = at + (pool[at] ?? 0)
            let isThere = false
            for (at += 1; at <= last && !isThere; at += 1) isThere = (next[pool[at] ?? 0] ?? farAway) < end
            if (!isThere) return false
            at = last + 1
          }
          return true
        },
      }
    },
  }
}

const farAway = 2 ** 30
