/**
 * `read` takes a message as it was typed, which may be empty or begin with a dash, where a command line would expect an
 * option. The text is the first word that is neither an option of `read` nor an option's value; it is moved behind `--`.
 */
export function withFreeText(argv: readonly string[]): string[] {
  const [command, ...words] = argv
  if (command !== 'read' || words.includes('--')) return [...argv]
  const place = words.findIndex((word, index) => !isOption(word) && !valued.includes(words[index - 1] ?? ''))
  const text = words[place]
  return text === undefined ? [...argv] : [command, ...words.toSpliced(place, 1), '--', text]
}

const valued = ['--awaiting', '--locale']
const options = [...valued, '--json', '--help', '-h']

function isOption(word: string): boolean {
  return options.some((option) => word === option || word.startsWith(`${option}=`))
}
