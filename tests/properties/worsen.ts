// One answer of a script made worse.
import { isWhole, type Answers, type SessionAnswers, type SetAnswer } from '#src/commands/rehearse/answers-schema.ts'
import { directions, type Direction } from '#src/domain/direction.ts'
import { controls } from '#src/domain/set-report.ts'

type WorseningKind = 'before' | 'morning' | 'pain' | 'control' | 'reserve' | 'unfinished' | 'left out'

export interface Worsened {
  readonly kind: WorseningKind
  readonly how: string
  /** Index of the session. */
  readonly session: number
  /** Whose set it was; null where the answer is about no set. */
  readonly direction: Direction | null
  readonly script: Answers
}

interface Change {
  readonly kind: WorseningKind
  readonly direction: Direction | null
  readonly how: string
  readonly answers: SessionAnswers
}

/** What the zones call comfortable for everybody. */
const comfortableUpTo = 2
/** Pain before a session that locks, whatever the usual pain. */
const urgentFrom = 8
const worstPain = 10

/**
 * Every way in which one answer of the script can be made worse by any amount. Pain that locks leaves every answer unasked
 * until a session clears it, bad ones among them, and is therefore taken only where the next session clears.
 */
export function worsenings(script: Answers): readonly Worsened[] {
  return script.sessions.flatMap((answers, session) =>
    changesOf(answers, script.sessions[session + 1]?.clear !== true).map(({ kind, direction, how, answers: worse }) => ({
      kind,
      direction,
      how: `session ${session}: ${how}`,
      session,
      script: { ...script, sessions: script.sessions.map((own, index) => (index === session ? worse : own)) },
    })),
  )
}

/** One of them: first which answer is made worse, then by how much, so that rare kinds are met as often as common ones. */
export function pickWorsening(script: Answers, pick: number): Worsened | null {
  const all = worsenings(script)
  const kinds = [...new Set(all.map((one) => one.kind))]
  const own = all.filter((one) => one.kind === kinds[pick % kinds.length])
  return own[Math.floor(pick / Math.max(1, kinds.length)) % own.length] ?? null
}

function changesOf(answers: SessionAnswers, staysLocked: boolean): readonly Change[] {
  const before = answers.before?.pain
  const morning = answers.morning?.pain
  return [
    ...worsePains(before).filter((pain) => !(staysLocked && pain >= urgentFrom)).map((pain) => ({ kind: 'before' as const, direction: null, how: `pain before ${before} to ${pain}`, answers: { ...answers, before: { ...answers.before, pain } } })),
    ...worsePains(morning).map((pain) => ({ kind: 'morning' as const, direction: null, how: `morning ${morning} to ${pain}`, answers: { ...answers, morning: { pain } } })),
    ...directions.flatMap((direction) => changesOfSets(answers, direction)),
  ]
}

function changesOfSets(answers: SessionAnswers, direction: Direction): readonly Change[] {
  const sets = answers.sets?.[direction] ?? []
  return sets.flatMap((set, index) =>
    worseSets(set).map(({ kind, how, set: worse }) => ({
      kind,
      direction,
      how: `${direction}, set ${index + 1}, ${how}`,
      answers: { ...answers, sets: { ...answers.sets, [direction]: sets.map((own, at) => (at === index ? worse : own)) } },
    })),
  )
}

function worsePains(pain: number | null | undefined): readonly number[] {
  return pain == null ? [] : Array.from({ length: worstPain - pain }, (_, index) => pain + 1 + index)
}

function worseSets(set: SetAnswer | null): readonly (Omit<Change, 'answers' | 'direction'> & { readonly set: SetAnswer | null })[] {
  if (!isWhole(set)) return []
  const { pain, control, reserve } = set
  // Left out tells nothing: of a set with nothing in reserve, or not finished, it would say less than the answers do.
  const isLeftOutWorse = pain <= comfortableUpTo && control === 'steady' && reserve > 0 && set.finished !== false
  return [
    ...worsePains(pain).map((worse) => ({ kind: 'pain' as const, how: `pain ${pain} to ${worse}`, set: { ...set, pain: worse } })),
    ...controls.slice(controls.indexOf(control) + 1).map((worse) => ({ kind: 'control' as const, how: `control ${control} to ${worse}`, set: { ...set, control: worse } })),
    ...[0, 1, 2, 3].filter((worse) => worse < reserve).map((worse) => ({ kind: 'reserve' as const, how: `reserve ${reserve} to ${worse}`, set: { ...set, reserve: worse } })),
    ...(set.finished === false ? [] : [{ kind: 'unfinished' as const, how: 'not finished', set: { ...set, finished: false } }]),
    ...(isLeftOutWorse ? [{ kind: 'left out' as const, how: 'left out', set: null }] : []),
  ]
}
