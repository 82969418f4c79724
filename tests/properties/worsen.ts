// One answer of a script made worse.
import fc, { type Arbitrary } from 'fast-check'
import { isWhole, type Answers, type SessionAnswers, type SetAnswer } from '#src/commands/rehearse/answers-schema.ts'
import { controls } from '#src/domain/set-report.ts'

export interface Worsened {
  readonly how: string
  /** Index of the session. */
  readonly session: number
  readonly script: Answers
}

interface Change {
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
    changesOf(answers, script.sessions[session + 1]?.clear !== true).map(({ how, answers: worse }) => ({
      how: `session ${session}: ${how}`,
      session,
      script: { ...script, sessions: script.sessions.map((own, index) => (index === session ? worse : own)) },
    })),
  )
}

export function anyWorsened(script: Answers): Arbitrary<Worsened | null> {
  const all = worsenings(script)
  return all.length === 0 ? fc.constant(null) : fc.constantFrom(...all)
}

function changesOf(answers: SessionAnswers, staysLocked: boolean): readonly Change[] {
  const before = answers.before?.pain
  const morning = answers.morning?.pain
  const sets = answers.sets?.extension ?? []
  return [
    ...worsePains(before).filter((pain) => !(staysLocked && pain >= urgentFrom)).map((pain) => ({ how: `pain before ${before} to ${pain}`, answers: { ...answers, before: { ...answers.before, pain } } })),
    ...worsePains(morning).map((pain) => ({ how: `morning ${morning} to ${pain}`, answers: { ...answers, morning: { pain } } })),
    ...sets.flatMap((set, index) =>
      worseSets(set).map(({ how, set: worse }) => ({
        how: `set ${index + 1}, ${how}`,
        answers: { ...answers, sets: { ...answers.sets, extension: sets.map((own, at) => (at === index ? worse : own)) } },
      })),
    ),
  ]
}

function worsePains(pain: number | null | undefined): readonly number[] {
  return pain == null ? [] : Array.from({ length: worstPain - pain }, (_, index) => pain + 1 + index)
}

function worseSets(set: SetAnswer | null): readonly { readonly how: string; readonly set: SetAnswer | null }[] {
  if (!isWhole(set)) return []
  const { pain, control, reserve } = set
  // Left out tells nothing: of a set with nothing in reserve, or not finished, it would say less than the answers do.
  const isLeftOutWorse = pain <= comfortableUpTo && control === 'steady' && reserve > 0 && set.finished !== false
  return [
    ...worsePains(pain).map((worse) => ({ how: `pain ${pain} to ${worse}`, set: { ...set, pain: worse } })),
    ...controls.slice(controls.indexOf(control) + 1).map((worse) => ({ how: `control ${control} to ${worse}`, set: { ...set, control: worse } })),
    ...[0, 1, 2, 3].filter((worse) => worse < reserve).map((worse) => ({ how: `reserve ${reserve} to ${worse}`, set: { ...set, reserve: worse } })),
    ...(set.finished === false ? [] : [{ how: 'not finished', set: { ...set, finished: false } }]),
    ...(isLeftOutWorse ? [{ how: 'left out', set: null }] : []),
  ]
}
