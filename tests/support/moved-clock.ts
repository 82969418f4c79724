// The clock of a process, moved on from outside: `Date` and every longer wait follow it.
import { offsetVariable } from './process-orders.ts'

const MachineDate = Date
const machine = { now: Date.now.bind(Date), setTimeout: globalThis.setTimeout, clearTimeout: globalThis.clearTimeout }
/** Shorter waits are left to the machine: they belong to libraries and never reach to another hour. */
const shortMs = 200

interface Waiting {
  dueAt: number
  readonly fire: () => void
  timer: NodeJS.Timeout
}

let offsetMs = Number(process.env[offsetVariable] ?? 0)
/** By the timer that the caller holds. */
const waitings = new Map<NodeJS.Timeout, Waiting>()
const now = (): number => machine.now() + offsetMs

globalThis.Date = new Proxy(MachineDate, {
  construct: (target, args, asked) => Reflect.construct(target, args.length === 0 ? [now()] : args, asked) as Date,
  get: (target, name) => (name === 'now' ? now : Reflect.get(target, name)),
})

function setTimeoutMovable(callback: (...args: unknown[]) => void, ms?: number, ...args: unknown[]): NodeJS.Timeout {
  if (!((ms ?? 0) >= shortMs)) return machine.setTimeout(callback, ms, ...args)
  const fire = (): void => {
    waitings.delete(timer)
    callback(...args)
  }
  const timer = machine.setTimeout(fire, ms)
  waitings.set(timer, { dueAt: now() + (ms ?? 0), fire, timer })
  return timer
}

globalThis.setTimeout = Object.assign(setTimeoutMovable, machine.setTimeout) as typeof globalThis.setTimeout
globalThis.clearTimeout = (timer) => {
  const waiting = waitings.get(timer as NodeJS.Timeout)
  waitings.delete(timer as NodeJS.Timeout)
  machine.clearTimeout(waiting?.timer ?? (timer as NodeJS.Timeout))
}

/** What was waited for ends in its order; what is due later waits for the rest. */
export function moveClock(to: number): void {
  offsetMs = to
  const inOrder = [...waitings.values()].toSorted((a, b) => a.dueAt - b.dueAt)
  for (const waiting of inOrder) {
    const hasRef = waiting.timer.hasRef()
    machine.clearTimeout(waiting.timer)
    waiting.timer = machine.setTimeout(waiting.fire, Math.max(0, waiting.dueAt - now()))
    if (!hasRef) waiting.timer.unref()
  }
}
