import { ConfigError } from '#src/config.ts'
import { ContentError } from '#src/content/problem.ts'
import { ChannelError } from '#src/ports/channel.ts'
import { StoreError } from '#src/ports/store.ts'
import { InputError } from '#src/commands/input-error.ts'
import { createProgram, isUsageError } from '#src/commands/program.ts'
import { withFreeText } from '#src/commands/free-text.ts'

/** Errors of these classes are the person's or the world's, told in a line; any other is our own mistake. */
const told = [ConfigError, ContentError, ChannelError, StoreError, InputError] as const

async function main(): Promise<number> {
  let status = 0
  const print = (line: string): void => void process.stdout.write(`${line}\n`)
  const terminal = process.stderr.isTTY ? (text: string): void => void process.stderr.write(text) : null
  const program = createProgram({ environment: process.env, print, terminal }, (code) => {
    status = code
  })
  try {
    await program.parseAsync(withFreeText(process.argv.slice(2)), { from: 'user' })
    return status
  } catch (error) {
    return complain(error)
  }
}

function complain(error: unknown): number {
  if (isUsageError(error)) {
    // Help that was asked for ends the program without being an error.
    if (error.exitCode === 0) return 0
    process.stderr.write(`${error.message.replace(/^error: /, '')}. See --help.\n`)
    return 2
  }
  if (told.some((kind) => error instanceof kind)) {
    process.stderr.write(`${(error as Error).message}\n`)
    return 2
  }
  throw error
}

process.exitCode = await main()
