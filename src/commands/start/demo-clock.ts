// The demo clinic's clock: real time and an offset that the page moves on, kept so that a restart does not turn it back.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import type { Instant } from '#src/domain/identifier.ts'
import type { Clock } from '#src/ports/clock.ts'

export const demoClockFileName = 'demo-clock.json'

const savedShape = z.object({ offsetMs: z.number().int().min(0) })

export class DemoClock implements Clock {
  private readonly path: string
  private offsetMs: number

  constructor(folder: string) {
    mkdirSync(folder, { recursive: true, mode: 0o700 })
    this.path = pathIn(folder)
    this.offsetMs = readOffset(this.path)
  }

  now(): Instant {
    return Date.now() + this.offsetMs
  }

  /** Forwards only: a clinic's time does not run back. */
  moveTo(at: Instant): void {
    this.offsetMs = Math.max(this.offsetMs, Math.round(at - Date.now()))
    writeFileSync(this.path, JSON.stringify({ offsetMs: this.offsetMs }), { mode: 0o600 })
  }
}

/** The time of a folder's demo clinic for whoever only reads; where there is none, the system's. */
export function readMovedClock(folder: string): Clock {
  return { now: () => Date.now() + readOffset(pathIn(folder)) }
}

function pathIn(folder: string): string {
  return join(folder, demoClockFileName)
}

/** A clock file that is missing or spoilt costs the demo its moved time and nothing else. */
function readOffset(path: string): number {
  try {
    return savedShape.parse(JSON.parse(readFileSync(path, 'utf8'))).offsetMs
  } catch {
    return 0
  }
}
