/** Our choice: far beyond the longest record, far below what would fill the memory. */
export const longestLineBytes = 128 * 1024 * 1024

/**
 * The lines of a stream in UTF-8, each without its end; what stands behind the last end of a line comes last. Ends are
 * line feeds alone: the reader that comes with the platform also takes others, which may stand within JSON. Throws a
 * RangeError on a line that is too long.
 */
export async function* splitLines(chunks: AsyncIterable<Buffer>): AsyncGenerator<string> {
  let begun: Buffer[] = []
  let length = 0
  for await (const chunk of chunks) {
    let start = 0
    for (let at = chunk.indexOf(10); at !== -1; at = chunk.indexOf(10, start)) {
      yield Buffer.concat([...begun, chunk.subarray(start, at)]).toString('utf8')
      begun = []
      length = 0
      start = at + 1
    }
    const rest = chunk.subarray(start)
    begun.push(rest)
    length += rest.length
    if (length > longestLineBytes) throw new RangeError('a line is too long')
  }
  if (length > 0) yield Buffer.concat(begun).toString('utf8')
}
