/**
 * `read` takes a message as it was typed, which may be empty or begin with a dash, where a command line would expect an
 * option. The text is the first argument after `read`, unless that is an option of `read`; it is moved behind `--`.
 */
export function withFreeText(argv: readonly string[]): string[] {
  const [command, text, ...rest] = argv
  if (command !== 'read' || text === undefined || isOption(text) || rest.includes('--')) return [...argv]
  return [command, ...rest, '--', text]
}

const options = ['--awaiting', '--locale', '--json', '--help', '-h', '--']

function isOption(text: string): boolean {
  return options.some((option) => text === option || text.startsWith(`${option}=`))
}
