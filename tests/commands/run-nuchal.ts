import { execFile, spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { onTestFinished } from 'vitest'
import { nodeOptions } from '#tests/support/built-product.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))

export interface Ran {
  readonly status: number | null
  readonly out: string
  readonly err: string
}

/** The variables that a shell has anyway; none of ours but those of the test. */
function environmentWith(environment: Record<string, string>): NodeJS.ProcessEnv {
  const { PATH, HOME, TMPDIR } = process.env
  return { PATH, HOME, TMPDIR, ...environment } as NodeJS.ProcessEnv
}

/** Runs a command to its end in a process of its own, as somebody at a shell would. */
export function runNuchal(args: readonly string[], environment: Record<string, string> = {}): Promise<Ran> {
  return new Promise((resolve) => {
    const child = execFile(process.execPath, [...nodeOptions(), ...args], { cwd: root, env: environmentWith(environment), maxBuffer: 2 ** 26 }, (_error, out, err) =>
      resolve({ status: child.exitCode, out, err }),
    )
  })
}

export interface RunningNuchal {
  /** The next line of standard output, or null once it has ended. */
  nextLine(): Promise<string | null>
  kill(signal: NodeJS.Signals): void
  readonly ended: Promise<number | null>
}

/** A command that goes on until it is told to end. */
export function startNuchal(args: readonly string[], environment: Record<string, string>): RunningNuchal {
  const child = spawn(process.execPath, [...nodeOptions(), ...args], { cwd: root, env: environmentWith(environment), stdio: ['ignore', 'pipe', 'inherit'] })
  onTestFinished(() => void child.kill('SIGKILL'))
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]()
  return {
    async nextLine() {
      const { value, done } = await lines.next()
      return done === true ? null : String(value)
    },
    kill: (signal) => void child.kill(signal),
    ended: new Promise((resolve) => child.on('close', (code) => resolve(code))),
  }
}
