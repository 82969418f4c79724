import { runCommand } from '#src/commands/run-command.ts'

process.exitCode = await runCommand(process.argv.slice(2), {
  environment: process.env,
  print: (line) => void process.stdout.write(`${line}\n`),
  complain: (line) => void process.stderr.write(`${line}\n`),
  terminal: process.stderr.isTTY ? (text) => void process.stderr.write(text) : null,
})
