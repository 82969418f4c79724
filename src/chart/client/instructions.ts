// What to do, in plain words: the warm-up, and the next set with its dose.
import { sideOf } from '#src/domain/direction.ts'
import type { ExerciseWords } from '#src/domain/exercise.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { exerciseOf, planOf } from './plan-facts.ts'
import { say, type Saying } from './say.ts'
import { nextSet, sessionOf } from './session-state.ts'

/** Every warm-up step of the ladders prescribed, each once. */
export function sayWarmUp(draft: Draft<Chart>): string {
  const saying = say(draft, 'client')
  const steps = sessionOf(draft.document).prescribed.flatMap(({ ladder }) => draft.content.ladders.get(ladder)?.warmUp ?? [])
  const once = steps.filter((step, index) => steps.findIndex((other) => other.exercise === step.exercise) === index)
  return once
    .map((step, index) => {
      const words = saying.words.exercise(step.exercise, null)
      const dose = saying.dose(step.exercise, { sets: step.sets, reps: step.reps, holdSeconds: step.holdSeconds, load: { kind: 'none' } }, null)
      return [`${index + 1}. ${dose}`, ...bullets([...words.setUp, ...words.movement])].join('\n')
    })
    .join('\n\n')
}

/** In full before the first set of an exercise, in short before the others. */
export function sayNextSet(draft: Draft<Chart>): string {
  const next = nextSet(draft)
  if (!next) return ''
  const saying = say(draft, 'client')
  const { direction, place, dose: prescribed } = next.prescribed
  const side = sideOf(direction)
  const words = saying.words.exercise(place.exercise, side)
  const rest = exerciseOf(draft.content, place.exercise).restSeconds
  const dose = saying.dose(place.exercise, { ...next.dose, sets: 1 }, side)
  const now = [
    ...(next.number === 1 ? [] : [saying.text('session.set.rest', { seconds: next.needsLongerRest ? rest * 2 : rest })]),
    ...(next.isEased ? [saying.text('session.set.eased')] : []),
    saying.text('session.set.dose', { number: next.number, sets: prescribed.sets, dose }),
    words.cue,
  ].join('\n')
  if (next.number > 1) return now
  return [inFull(saying, words, planOf(draft.document).emergencyNumber), now].join('\n\n')
}

function inFull({ text }: Saying, words: ExerciseWords, number: string): string {
  const part = (name: string, lines: readonly string[]): string => [text(`session.set.${name}`), ...bullets(lines)].join('\n')
  return [
    text('session.set.title', { name: words.name }),
    part('set-up', words.setUp),
    part('movement', [...words.movement, words.breathing]),
    part('control', [words.goodControl]),
    part('faults', words.faults),
    part('stop-when', [...words.stopWhen, text('session.set.emergency', { number })]),
  ].join('\n\n')
}

function bullets(lines: readonly string[]): readonly string[] {
  return lines.map((line) => `• ${line}`)
}
