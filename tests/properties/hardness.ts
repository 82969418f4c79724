// The order of prescriptions as printed: a higher rung; on the same rung more load; at the same load more hold,
// repetitions or sets. A prescription that is missing is the easiest.
import type { Direction } from '#src/domain/direction.ts'
import type { RehearsedSession } from '#src/commands/rehearse/collect-session.ts'

export type PrintedPrescription = RehearsedSession['prescription'][number]

/** What a session asks of one direction; null where it asks nothing. */
export function workOf(session: RehearsedSession | undefined, direction: Direction): PrintedPrescription | null {
  return session?.prescription.find((one) => !one.warmup && one.direction === direction) ?? null
}

/** Positive where `a` is harder. */
export function compareHardness(a: PrintedPrescription | null, b: PrintedPrescription | null): number {
  if (a === null || b === null) return Number(a !== null) - Number(b !== null)
  const rung = (a.rung ?? 0) - (b.rung ?? 0)
  if (rung !== 0) return rung
  return loadOf(a) - loadOf(b) || (a.hold_s ?? 0) - (b.hold_s ?? 0) || a.reps - b.reps || a.sets - b.sets
}

/** One of the three is set at most on a rung. */
export function loadOf({ load_kg, load_n, push }: PrintedPrescription): number {
  return load_kg ?? load_n ?? push ?? 0
}

export function describePrescription(one: PrintedPrescription | null): string {
  return one === null ? 'nothing' : `${one.direction}, rung ${one.rung}: ${one.sets} × ${one.reps} × ${one.hold_s ?? '–'} s, ${one.load_kg ?? '–'} kg, ${one.load_n ?? '–'} N, push ${one.push ?? '–'}`
}
