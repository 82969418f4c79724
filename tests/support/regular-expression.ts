/** A regular expression, cut into what its work depends on. Knows what the project uses; anything else throws. */
export type Part =
  | { readonly kind: 'one'; readonly source: string; readonly fits: RegExp }
  | { readonly kind: 'same'; readonly group: number }
  | { readonly kind: 'edge'; readonly source: string }
  | { readonly kind: 'look'; readonly isBehind: boolean; readonly isNot: boolean; readonly ways: Ways }
  | { readonly kind: 'group'; readonly group: number | null; readonly ways: Ways }
  | { readonly kind: 'repeat'; readonly least: number; readonly most: number; readonly of: Part }
export type Ways = readonly (readonly Part[])[]

const openings = /\((?:\?(?:<[A-Za-z]\w*>|[:=!]|<[=!]))?/y
const one = /\[(?:\\.|[^\]\\])*\]|\\[pP]\{[^}]*\}|\\u\{[^}]*\}|\\u[\dA-Fa-f]{4}|\\x[\dA-Fa-f]{2}|\\[^1-9bBk]|[^\\()[\]|*+?{}^$]/uy
const counts = /\*|\+|\?|\{(\d+)(,?)(\d*)\}/y

export function parseExpression(source: string, flags: string): Ways {
  let at = 0
  let groups = 0
  const take = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = at
    const match = pattern.exec(source)
    if (match) at += match[0].length
    return match
  }
  const takeWays = (): Ways => {
    const ways: Part[][] = [[]]
    while (at < source.length && source[at] !== ')') {
      if (source[at] === '|') ways.push([])
      if (source[at] === '|') at += 1
      else ways.at(-1)?.push(repeated(takePart()))
    }
    return ways
  }
  const repeated = (of: Part): Part => {
    const match = take(counts)
    if (!match) return of
    if (source[at] === '?') at += 1
    const [written, low = '', comma = '', high = ''] = match
    const least = written === '+' ? 1 : Number(low)
    const most = written === '?' ? 1 : high !== '' ? Number(high) : low !== '' && comma === '' ? Number(low) : Infinity
    return { kind: 'repeat', least, most, of }
  }
  const takePart = (): Part => {
    const edge = take(/\^|\$|\\[bB]/y)
    if (edge) return { kind: 'edge', source: edge[0] }
    const same = take(/\\[1-9]/y)
    if (same) return { kind: 'same', group: Number(same[0].slice(1)) }
    const opening = take(openings)?.[0]
    if (opening === undefined) {
      const match = take(one)
      if (!match) throw new Error(`cannot read ${source} at ${at}`)
      return { kind: 'one', source: match[0], fits: new RegExp(`^(?:${match[0]})$`, flags.replace(/[gymd]/g, '') + (flags.includes('s') ? '' : 's')) }
    }
    const isLook = /[=!]$/.test(opening)
    const group = isLook || opening === '(?:' ? null : (groups += 1)
    const ways = takeWays()
    at += 1
    return isLook ? { kind: 'look', isBehind: opening.includes('<'), isNot: opening.endsWith('!'), ways } : { kind: 'group', group, ways }
  }
  return takeWays()
}

const isWord = (letter: string | undefined): boolean => letter !== undefined && /\w/.test(letter)

/**
 * How many places are compared when a text is searched from its start for every match, by plain backtracking; counted no
 * further than the limit, since some expressions would take longer than a life.
 */
export function searchSteps(ways: Ways, text: string, limit: number): number {
  const letters = [...text]
  const caught: [number, number][] = []
  let steps = 0
  type Next = (at: number) => boolean
  const anyOf = (choices: Ways, at: number, next: Next): boolean => choices.some((parts) => run(parts, 0, at, next))
  const run = (parts: readonly Part[], place: number, at: number, next: Next): boolean => {
    const part = parts[place]
    return part === undefined ? next(at) : match(part, at, (end) => run(parts, place + 1, end, next))
  }
  const match = (part: Part, at: number, next: Next): boolean => {
    if (steps >= limit) return false
    steps += 1
    if (part.kind === 'one') return at < letters.length && part.fits.test(letters[at] ?? '') && next(at + 1)
    if (part.kind === 'edge') return holds(part.source, at) && next(at)
    if (part.kind === 'look') return looks(part, at) !== part.isNot && next(at)
    if (part.kind === 'group') {
      return anyOf(part.ways, at, (end) => {
        if (part.group !== null) caught[part.group] = [at, end]
        return next(end)
      })
    }
    if (part.kind === 'same') {
      const [from, to] = caught[part.group] ?? [0, 0]
      const isSame = letters.slice(from, to).every((letter, offset) => letters[at + offset] === letter)
      return isSame && next(at + to - from)
    }
    return again(part, 0, at, next)
  }
  const again = (part: Part & { kind: 'repeat' }, times: number, at: number, next: Next): boolean => {
    const more = times < part.most && match(part.of, at, (end) => (end > at || times < part.least) && again(part, times + 1, end, next))
    return more || (times >= part.least && next(at))
  }
  const holds = (edge: string, at: number): boolean => {
    if (edge === '^') return at === 0
    if (edge === '$') return at === letters.length
    return (isWord(letters[at - 1]) !== isWord(letters[at])) === (edge === '\\b')
  }
  const looks = (part: Part & { kind: 'look' }, at: number): boolean => {
    if (!part.isBehind) return anyOf(part.ways, at, () => true)
    return at > 0 && anyOf(part.ways, at - 1, (end) => end === at)
  }
  for (let start = 0; start <= letters.length;) {
    let end = start
    const found = anyOf(ways, start, (last) => {
      end = last
      return true
    })
    start = found && end > start ? end : start + 1
  }
  return steps
}
