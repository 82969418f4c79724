import { describeCrash } from '#src/commands/describe-crash.ts'
import { runCommand } from '#src/commands/run-command.ts'

/** A mistake of ours ends the process: what is committed is safe, and whoever supervises it starts it again. */
function crash(error: unknown): never {
  process.stderr.write(`${describeCrash(error)}\n`)
  process.exit(1)
}

// A rejection that nobody handles comes here as well.
process.on('uncaughtException', crash)

process.exitCode = await runCommand(process.argv.slice(2), {
  environment: process.env,
  print: (line) => void process.stdout.write(`${line}\n`),
  complain: (line) => void process.stderr.write(`${line}\n`),
  terminal: process.stderr.isTTY ? (text) => void process.stderr.write(text) : null,
}).catch(crash)
