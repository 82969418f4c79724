// A rehearsed session as it is printed, read from the entries that the step recorded.
import type { PendingSession, Prescribed, SetRecord } from '#src/chart/chart.ts'
import type { WarmUp } from '#src/chart/client/warm-ups.ts'
import { languageOf } from '#src/chart/language-of.ts'
import type { SettledLadder } from '#src/chart/client/settle-pending.ts'
import type { Content, Words } from '#src/content/content.ts'
import type { Decision } from '#src/domain/decision.ts'
import type { Direction } from '#src/domain/direction.ts'
import type { Dose } from '#src/domain/dose.ts'
import type { Entry } from '#src/domain/entry.ts'
import type { Control } from '#src/domain/set-report.ts'
import type { AlertLevel } from '#src/domain/triage.ts'
import { isWhole, type SessionAnswers } from './answers-schema.ts'

export interface PrintedDose {
  readonly reps: number
  readonly hold_s: number | null
  readonly load_kg: number | null
  readonly load_n: number | null
  /** Effort of the client's own hand, 0–10; null where no hand pushes. */
  readonly push: number | null
}

export interface RehearsedSession {
  readonly day: number
  readonly locked: boolean
  readonly prescription: readonly (PrintedDose & {
    readonly direction: Direction
    readonly exercise: string
    /** Null for a warm-up, which stands on no rung. */
    readonly rung: number | null
    readonly sets: number
    readonly warmup: boolean
  })[]
  readonly sets: readonly (PrintedDose & {
    readonly direction: Direction
    readonly exercise: string
    readonly answer: { readonly pain: number; readonly control: Control; readonly reserve: number } | null
  })[]
  readonly decisions: readonly {
    readonly direction: Direction
    readonly decision: Decision['kind']
    readonly reasons: readonly { readonly rule: string; readonly text: string }[]
  }[]
  readonly alerts: readonly { readonly level: AlertLevel; readonly text: string }[]
}

export interface PlayedSession {
  readonly answers: SessionAnswers
  /** Index of the first entry that belongs to it. */
  readonly from: number
  readonly wasLocked: boolean
}

interface Collecting extends PlayedSession {
  /** From its beginning to the next one's. */
  readonly during: readonly Entry[]
  readonly entries: readonly Entry[]
  /** The session that no later one has decided, and what its decisions would be. */
  readonly pending: PendingSession | null
  readonly waiting: readonly SettledLadder[]
  readonly content: Content
}

export function collectSession(collecting: Collecting): RehearsedSession {
  const { answers, during, wasLocked } = collecting
  const id = during.find((entry) => entry.kind === 'session-begun')?.data.session
  const sets = wasLocked ? [] : printSets(collecting, id)
  const isLocked = wasLocked || (sets.length === 0 && during.some((entry) => entry.kind === 'lock'))
  return {
    day: answers.day,
    locked: isLocked,
    prescription: isLocked ? [] : printPrescription(collecting, id),
    sets,
    decisions: isLocked ? [] : printDecisions(collecting, id),
    alerts: during.filter((entry) => entry.kind === 'alert').map(({ data }) => ({ level: data.level as AlertLevel, text: String(data.text) })),
  }
}

function printDose({ reps, holdSeconds, load }: Dose): PrintedDose {
  return {
    reps,
    hold_s: holdSeconds,
    load_kg: load.kind === 'mass' ? load.kilograms : null,
    load_n: load.kind === 'force' ? load.newtons : null,
    push: load.kind === 'push' ? load.effort : null,
  }
}

function printPrescription({ during }: Collecting, id: unknown): RehearsedSession['prescription'] {
  const entry = during.findLast(({ kind, data }) => kind === 'prescription' && data.session === id)
  const prescribed = (entry?.data.prescribed ?? []) as readonly Prescribed[]
  const warmUps = (entry?.data.warmUps ?? []) as readonly WarmUp[]
  return [
    ...warmUps.map(({ direction, exercise, dose }) => ({ direction, exercise, rung: null, sets: dose.sets, ...printDose(dose), warmup: true })),
    ...prescribed.map(({ direction, place, dose }) => ({
      direction,
      exercise: place.exercise,
      rung: place.rung,
      sets: dose.sets,
      ...printDose(dose),
      warmup: false,
    })),
  ]
}

function printSets({ during, answers }: Collecting, id: unknown): RehearsedSession['sets'] {
  const counted = new Map<Direction, number>()
  return during
    .filter(({ kind, data }) => kind === 'set' && data.session === id)
    .map(({ data }) => {
      const { direction, exercise, dose, report } = data as unknown as SetRecord
      const index = counted.get(direction) ?? 0
      counted.set(direction, index + 1)
      const scripted = answers.sets?.[direction]?.[index]
      // After red pain nothing more is asked; the answer is shown whole, as the script has it.
      const answer = report !== null && isWhole(scripted) ? { pain: scripted.pain, control: scripted.control, reserve: scripted.reserve } : null
      return { direction, exercise, ...printDose(dose), answer }
    })
}

function printDecisions({ entries, pending, waiting, content }: Collecting, id: unknown): RehearsedSession['decisions'] {
  const { words } = languageOf(content)
  const final = entries.filter(({ kind, data }) => kind === 'decision' && data.session === id)
  if (final.length > 0) return final.map(({ data }) => printDecision(data.direction as Direction, data as unknown as Decision, words))
  // Not final yet: nothing that comes later has decided this session, so that it is the one still waiting.
  return pending?.id === id ? waiting.flatMap(({ directions, decision }) => directions.map((direction) => printDecision(direction, decision, words))) : []
}

function printDecision(direction: Direction, { kind, reasons }: Decision, words: Words): RehearsedSession['decisions'][number] {
  const texts = reasons.map(({ rule, numbers }) => ({ rule, text: words.say(`reasons.therapist.${rule}`, numbers) }))
  return { direction, decision: kind, reasons: texts }
}
