import { spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import { entryOptions, type Entry } from './built-product.ts'

/** A script in a process of its own. */
export interface StartedScript {
  /** The next whole line it printed, or null once it has ended. */
  nextLine(): Promise<string | null>
  kill(signal: NodeJS.Signals): void
  /** Resolves with the lines not yet asked for when it has ended. */
  ended: Promise<readonly string[]>
}

export function startScript(name: Entry, args: readonly string[]): StartedScript {
  const child = spawn(process.execPath, [...entryOptions(name), ...args], { stdio: ['pipe', 'pipe', 'inherit'] })
  const lines: string[] = []
  const waiting: ((line: string | null) => void)[] = []
  let hasEnded = false
  createInterface({ input: child.stdout }).on('line', (line) => {
    const next = waiting.shift()
    if (next === undefined) lines.push(line)
    else next(line)
  })
  const ended = new Promise<readonly string[]>((resolve) => {
    child.on('close', () => {
      hasEnded = true
      for (const next of waiting) next(null)
      resolve(lines)
    })
  })
  return {
    async nextLine() {
      const line = lines.shift()
      if (line !== undefined || hasEnded) return line ?? null
      return new Promise((resolve) => waiting.push(resolve))
    },
    kill: (signal) => void child.kill(signal),
    ended,
  }
}
