import { CommanderError } from 'commander'
import { ConfigError } from '#src/config.ts'
import { ContentError } from '#src/content/problem.ts'
import { ChannelError } from '#src/ports/channel.ts'
import { StoreError } from '#src/ports/store.ts'
import { withFreeText } from './free-text.ts'
import { InputError } from './input-error.ts'
import { createProgram } from './program.ts'
import type { Surface } from './surface.ts'

/** Errors of these classes are the person's or the world's, told in a line; any other is our own mistake. */
const told = [ConfigError, ContentError, ChannelError, StoreError, InputError] as const

/** Carries out one command line and gives back its exit status; our own mistakes are thrown on. */
export async function runCommand(argv: readonly string[], surface: Surface): Promise<number> {
  let status = 0
  const program = createProgram(surface, (code) => {
    status = code
  })
  try {
    await program.parseAsync(withFreeText(argv), { from: 'user' })
    return status
  } catch (error) {
    if (error instanceof CommanderError) return complainOfUsage(error, surface)
    if (!told.some((kind) => error instanceof kind)) throw error
    surface.complain((error as Error).message)
    return 2
  }
}

function complainOfUsage(error: CommanderError, { complain }: Surface): number {
  // Help that was asked for ends the program without being an error.
  if (error.exitCode === 0) return 0
  // Without any command the parser would print its help, which it has no message for.
  const line = error.code === 'commander.help' ? 'no command was named' : error.message.replace(/^error: /, '').replace(/\.$/, '')
  complain(`${line}. See --help.`)
  return 2
}
