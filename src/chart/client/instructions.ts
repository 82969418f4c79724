// What to do, in plain words: the warm-up, and the next set with its dose.
import { sideOf, type Direction } from '#src/domain/direction.ts'
import type { ExerciseWords } from '#src/domain/exercise.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { exerciseOf, planOf, protocolOf } from './plan-facts.ts'
import { say, type Saying } from './say.ts'
import { nextSet, sessionOf, setsOn } from './session-state.ts'
import { easyWarmUps, loadedWarmUp } from './warm-ups.ts'

/** Every warm-up step of the ladders prescribed. */
export function sayWarmUp(draft: Draft<Chart>): string {
  const saying = say(draft, 'client')
  return easyWarmUps(draft, sessionOf(draft.document).prescribed)
    .map(({ exercise, dose }, index) => {
      const words = saying.words.exercise(exercise, null)
      return [`${index + 1}. ${saying.dose(exercise, dose, null)}`, ...bullets([...words.setUp, ...words.movement])].join('\n')
    })
    .join('\n\n')
}

/** In full before the first set of an exercise, in short before the others, on its other side, and when it is asked again. */
export function sayNextSet(draft: Draft<Chart>): string {
  const next = nextSet(draft)
  if (!next) return ''
  const saying = say(draft, 'client')
  const { ladder, direction, place, dose: prescribed } = next.prescribed
  const side = sideOf(direction)
  const words = saying.words.exercise(place.exercise, side)
  const rest = exerciseOf(draft.content, place.exercise).restSeconds
  const dose = saying.dose(place.exercise, { ...next.dose, sets: 1 }, side)
  const isOtherSide = next.number === 1 && setsOn(sessionOf(draft.document), ladder).length > 0
  const light = next.number === 1 ? loadedWarmUp(draft, next.prescribed) : null
  const now = [
    ...(isOtherSide && side ? [saying.text('session.set.other-side', { side })] : []),
    ...(light ? [saying.text('session.set.light-first', { dose: saying.dose(light.exercise, light.dose, side) })] : []),
    ...(next.number === 1 && !isOtherSide ? [] : [saying.text('session.set.rest', { seconds: next.needsLongerRest ? rest * 2 : rest })]),
    ...(next.isEased ? [saying.text('session.set.eased')] : []),
    saying.text('session.set.dose', { number: next.number, sets: prescribed.sets, dose }),
    words.cue,
  ].join('\n')
  if (next.number > 1 || isOtherSide || isAskedAgain(draft, direction, next.number)) return now
  return [inFull(draft, saying, words), now].join('\n\n')
}

/** The instructions stand a few lines above; whoever is in trouble should not have to look for the question below them. */
function isAskedAgain(draft: Draft<Chart>, direction: Direction, number: number): boolean {
  const { asked } = sessionOf(draft.document)
  return asked !== null && asked.direction === direction && asked.number === number
}

/** The pain above which every exercise says to stop; a client's own limit may be lower, and is told then. */
const limitInWords = 5

function inFull(draft: Draft<Chart>, { text }: Saying, words: ExerciseWords): string {
  const plan = planOf(draft.document)
  const limit = protocolOf(plan, draft.content).pain.amberUpTo
  const own = limit < limitInWords ? [text('session.set.limit', { limit })] : []

  const part = (name: string, lines: readonly string[]): string => [text(`session.set.${name}`), ...bullets(lines)].join('\n')
  return [
    text('session.set.title', { name: words.name }),
    part('set-up', words.setUp),
    part('movement', [...words.movement, words.breathing]),
    part('control', [words.goodControl]),
    part('faults', words.faults),
    part('stop-when', [...words.stopWhen, ...own, text('session.set.emergency', { number: plan.emergencyNumber })]),
  ].join('\n\n')
}

function bullets(lines: readonly string[]): readonly string[] {
  return lines.map((line) => `• ${line}`)
}
