// The words of an exercise say the same in every language: no line, figure, side or caution is lost on the way from English.
// What is compared is what the client reads, with the sides filled in.
import { describe, expect, it } from 'vitest'
import { directionsOf, sides } from '#src/domain/direction.ts'
import type { Exercise, ExerciseWords } from '#src/domain/exercise.ts'
import { cautions, signsOf } from '#tests/support/exercise-signs.ts'
import { measureFor } from '#tests/support/reading-measures.ts'
import { content } from '#tests/support/sample-chain.ts'

const original = 'en'

/** Every text by its place, as `faults 2`. */
function linesOf(words: ExerciseWords): ReadonlyMap<string, string> {
  const keys = Object.keys(words).toSorted() as (keyof ExerciseWords)[]
  return new Map(keys.flatMap((key) => [words[key]].flat().map((text, index): [string, string] => [`${key} ${index + 1}`, text])))
}

/** What is wrong with a translation, by the place of the text. */
function disagreements(english: ExerciseWords, translation: ExerciseWords, language: string): readonly string[] {
  const [from, to] = [linesOf(english), linesOf(translation)]
  const places = [...new Set([...from.keys(), ...to.keys()])]
  return places.flatMap((place) => {
    const [text, other] = [from.get(place), to.get(place)]
    if (text === undefined || other === undefined) return [`${place}: ${text === undefined ? 'added' : 'lost'}`]
    return [...figureFaults(text, other), ...sideFaults(text, other, language), ...cautionFaults(text, other, language)].map((fault) => `${place}: ${fault}`)
  })
}

function figureFaults(text: string, other: string): readonly string[] {
  const figures = (of: string): string => (of.match(/\d+/g) ?? []).toSorted().join(' ')
  const braces = /[{}]/.test(other) ? ['a brace is left'] : []
  return figures(text) === figures(other) ? braces : [...braces, `figures ${figures(text)} became ${figures(other)}`]
}

function sideFaults(text: string, other: string, language: string): readonly string[] {
  const count = (of: string, side: RegExp): number => of.match(side)?.length ?? 0
  return sides
    .filter((side) => count(text, signsOf(original).side[side]) !== count(other, signsOf(language).side[side]))
    .map((side) => `${side} is not said as often`)
}

function cautionFaults(text: string, other: string, language: string): readonly string[] {
  return cautions
    .filter((caution) => signsOf(original).cautions[caution].test(text) !== signsOf(language).cautions[caution].test(other))
    .map((caution) => `"${caution}" stands in one language only`)
}

function wordsIn(language: string, { id, ladder }: Exercise): readonly ExerciseWords[] {
  const words = content.languages.get(language)?.words
  if (words === undefined) throw new Error(`no words in "${language}"`)
  return (directionsOf(ladder).length > 1 ? sides : [null]).map((side) => words.exercise(id, side))
}

function wordsOf(language: string, id: string): ExerciseWords {
  const [first] = exercises.filter((exercise) => exercise.id === id).flatMap((exercise) => wordsIn(language, exercise))
  if (first === undefined) throw new Error(`no exercise ${id}`)
  return first
}

const exercises = [...content.exercises.values()]

describe('the comparison', () => {
  const english = wordsOf(original, 'wall-side-press')

  it.each<[string, Partial<ExerciseWords>, readonly string[]]>([
    ['a lost line', { faults: english.faults.slice(0, -1) }, ['faults 5: lost']],
    ['a changed figure', { movement: english.movement.with(2, 'Push. 0 is no push and 7 is all you have.') }, ['movement 3: figures 0 10 became 0 7']],
    ['the other side', { short: 'side wall press, right' }, ['short 1: left is not said as often', 'short 1: right is not said as often']],
    ['an unfilled brace', { cue: '{side}' }, ['cue 1: a brace is left']],
    ['a lost caution', { breathing: 'Breathe.' }, ['breathing 1: "no holding the breath" stands in one language only']],
  ])('notices %s', (_title, change, expected) => {
    expect(disagreements(english, { ...english, ...change }, original)).toEqual(expected)
  })

  it('finds nothing to complain of in English itself', () => {
    expect(exercises.flatMap((exercise) => wordsIn(original, exercise).flatMap((words) => disagreements(words, words, original)))).toEqual([])
  })

  it('looks for no caution that no exercise has', () => {
    const texts = exercises.flatMap((exercise) => wordsIn(original, exercise).flatMap((words) => [...linesOf(words).values()]))
    expect(cautions.filter((caution) => !texts.some((text) => signsOf(original).cautions[caution].test(text)))).toEqual([])
  })
})

describe.each([...content.languages.keys()].filter((language) => language !== original))('the words of the exercises in "%s"', (language) => {
  it.each(exercises)('say for both sides what English says: $id', (exercise) => {
    const translated = wordsIn(language, exercise)
    const faults = wordsIn(original, exercise).flatMap((words, index) => {
      const own = translated[index]
      return own === undefined ? ['a side is missing'] : disagreements(words, own, language)
    })
    expect(faults).toEqual([])
  })

  it('name every exercise differently, and give each a short name of its own', () => {
    const [names, shorts] = [exercises.map((exercise) => wordsIn(language, exercise)[0]?.name), exercises.map((exercise) => wordsIn(language, exercise)[0]?.short)]
    expect([new Set(names).size, new Set(shorts).size]).toEqual([exercises.length, exercises.length])
  })

  it.each(exercises)('read easily enough: $id', (exercise) => {
    const measure = measureFor(language)
    const text = wordsIn(language, exercise).flatMap((words) => [...linesOf(words)].filter(([place]) => !/^(name|short) /.test(place)).map(([, line]) => line)).join(' ')
    expect(measure.margin(measure.score(measure.count(text)))).toBeGreaterThanOrEqual(0)
  })
})
