// The product as a process of its own, with a clock that can be moved and a disk that can be full.
import { spawn, type ChildProcess } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { nodeOptions } from './built-product.ts'
import { offsetVariable, type Order } from './process-orders.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))

export interface StartedProcess {
  /** Resolves when that text stands in what was printed; false where the process ended before. */
  printed(text: string | RegExp): Promise<boolean>
  readonly out: string
  readonly err: string
  readonly isRunning: boolean
  kill(signal: NodeJS.Signals): void
  /** Resolves when the process has taken it, with false where it has ended instead. */
  order(order: Order): Promise<boolean>
  readonly ended: Promise<{ readonly status: number | null; readonly signal: NodeJS.Signals | null }>
}

/** `offsetMs`: how far its clock is ahead of the machine's. */
export function startProcess(args: readonly string[], environment: Readonly<Record<string, string>>, offsetMs = 0): StartedProcess {
  const { PATH, HOME, TMPDIR } = process.env
  // No network of its own: Telegram stands in TELEGRAM_API_ROOT.
  const env = { PATH, HOME, TMPDIR, PORT: '0', ...environment, [offsetVariable]: String(offsetMs) } as NodeJS.ProcessEnv
  const child = spawn(process.execPath, [...nodeOptions({ isMoved: true }), ...args], {
    cwd: root,
    env,
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
  })
  return watch(child)
}

function watch(child: ChildProcess): StartedProcess {
  const written = { out: '', err: '' }
  const watchers = new Set<() => void>()
  const orders: { readonly kind: string; readonly resolve: (isDone: boolean) => void }[] = []
  let isRunning = true
  const ended = new Promise<{ status: number | null; signal: NodeJS.Signals | null }>((resolve) => {
    child.on('close', (status, signal) => {
      isRunning = false
      for (const { resolve: settle } of orders.splice(0)) settle(false)
      resolve({ status, signal })
      tell()
    })
  })
  function tell(): void {
    for (const watcher of watchers) watcher()
  }
  child.stdout?.on('data', (text: Buffer) => {
    written.out += text.toString()
    tell()
  })
  child.stderr?.on('data', (text: Buffer) => {
    written.err += text.toString()
    tell()
  })
  // A process that is killed closes the channel under a message on its way.
  child.on('error', () => undefined)
  child.on('message', (message: { readonly done?: string }) => {
    const index = orders.findIndex(({ kind }) => kind === message.done)
    if (index >= 0) orders.splice(index, 1)[0]?.resolve(true)
  })
  return {
    ended,
    get out() {
      return written.out
    },
    get err() {
      return written.err
    },
    get isRunning() {
      return isRunning
    },
    kill: (signal) => void child.kill(signal),
    printed: (text) =>
      new Promise((resolve) => {
        const look = (): void => {
          const isThere = typeof text === 'string' ? written.out.includes(text) : text.test(written.out)
          if (!isThere && isRunning) return
          watchers.delete(look)
          resolve(isThere)
        }
        watchers.add(look)
        look()
      }),
    order: (order) =>
      new Promise((resolve) => {
        if (!isRunning || !child.connected) return resolve(false)
        orders.push({ kind: order.kind, resolve })
        child.send(order, (error) => {
          if (error !== null) resolve(false)
        })
      }),
  }
}
