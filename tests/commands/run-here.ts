import { runCommand } from '#src/commands/run-command.ts'

export interface RanHere {
  readonly status: number
  readonly printed: readonly string[]
  readonly complaints: readonly string[]
}

/** A command line carried out in this process: all but the process's own streams and exit. */
export async function runHere(args: readonly string[], environment: Readonly<Record<string, string>> = {}): Promise<RanHere> {
  const printed: string[] = []
  const complaints: string[] = []
  const print = (line: string): void => void printed.push(line)
  const complain = (line: string): void => void complaints.push(line)
  const status = await runCommand(args, { environment, print, complain, terminal: null })
  return { status, printed, complaints }
}
