// What every ladder has to hold so that a therapist can give it to anybody: alternatives that stand for one another, a way
// past each restriction, a way out of every load, and the same words for both sides. Rungs are written out by hand.
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readPlan } from '#src/content/read-plan.ts'
import { directions, directionsOf, ladderIds, type LadderId } from '#src/domain/direction.ts'
import type { Exercise, ExerciseWords } from '#src/domain/exercise.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { chooseExercises } from '#src/rules/choose-exercises.ts'
import { content } from '#tests/support/sample-chain.ts'

const file = 'content/plans/all-directions.yaml'
const plan = readPlan(readFileSync(file, 'utf8'), file, content)
const words = content.languages.get('en')?.words

function exercisesOf(ladder: LadderId): readonly Exercise[] {
  const rungs = content.ladders.get(ladder)?.rungs ?? []
  return rungs.flatMap((rung) => rung.exercises).map(exerciseOf)
}

function exerciseOf(id: ExerciseId): Exercise {
  const exercise = content.exercises.get(id)
  if (exercise === undefined) throw new Error(`no exercise ${id}`)
  return exercise
}

/** Texts of an exercise in order; for a side where its ladder has two. */
function wordsOf({ id, ladder }: Exercise, side: 'left' | 'right'): ExerciseWords {
  if (words === undefined) throw new Error('no English words')
  return words.exercise(id, directionsOf(ladder).length > 1 ? side : null)
}

/** What a client does on each rung, the closed rungs left out. */
function chosen(ladder: LadderId, changes: Partial<Plan>): readonly string[] {
  const own = content.ladders.get(ladder)
  if (own === undefined) throw new Error(`no ladder ${ladder}`)
  return chooseExercises({ ...plan, ...changes }, own, content.exercises, content.triage.gates).map(({ exercise }) => exercise.id)
}

const everyRung: Record<LadderId, readonly string[]> = {
  extension: ['gravity-minimised-hold', 'seated-hold-two-hands', 'seated-band', 'seated-harness', 'supported-bridge'],
  flexion: ['side-lying-forehead-press', 'seated-forehead-hold', 'seated-band-flexion', 'propped-head-lift', 'lying-head-lift'],
  'lateral-flexion': ['lying-side-press', 'seated-side-hold', 'seated-band-side', 'side-lying-head-lift'],
  rotation: ['lying-turn-press', 'seated-turn-hold', 'turned-hold'],
  'deep-flexors': ['deep-flexor-activation', 'head-lightening-nods', 'upright-nod-hold'],
}

describe('the plan with every direction', () => {
  it('works each of them once, up to the top, on what its ladders begin with', () => {
    expect(plan.ladders.map(({ direction }) => direction)).toEqual(directions)
    expect(Object.fromEntries(ladderIds.map((id) => [id, chosen(id, {})]))).toEqual(everyRung)
  })

  it('names every piece of equipment, two measured bands and plates down to a quarter kilogram', () => {
    const { harnessKg, hasSupport, stepCm, bands, platesKg } = plan.equipment
    expect([harnessKg, hasSupport, stepCm, bands.length, Math.min(...platesKg), plan.usualPain]).toEqual([0.4, true, 30, 2, 0.25, 1])
  })
})

describe('what a restriction changes, everything being owned', () => {
  const oneShoulder: Partial<Record<LadderId, readonly string[]>> = {
    extension: ['lying-head-press', 'seated-hold-one-hand', 'seated-band-harness', 'seated-harness', 'supported-bridge'],
    flexion: ['propped-head-lightening', 'seated-forehead-hold', 'seated-band-flexion-harness', 'propped-head-lift', 'lying-head-lift'],
    'lateral-flexion': ['lying-tilt-hold', 'wall-side-press', 'seated-band-side-harness', 'side-lying-head-lift'],
    rotation: ['lying-turn-hold', 'seated-turn-hold-one-hand', 'turned-hold-one-hand'],
  }
  const changed: Record<string, Partial<Record<LadderId, readonly string[]>>> = {
    'shoulder-left-limited': oneShoulder,
    'shoulder-right-limited': oneShoulder,
    'hands-to-head-limited': {
      ...oneShoulder,
      extension: ['lying-head-press', 'seated-wall-press', 'seated-band-harness', 'seated-harness', 'supported-bridge'],
      flexion: ['propped-head-lightening', 'wall-forehead-press', 'seated-band-flexion-harness', 'propped-head-lift', 'lying-head-lift'],
      rotation: ['lying-turn-hold'],
      'deep-flexors': ['deep-flexor-activation', 'head-lightening-nods', 'wall-nod-hold'],
    },
    'floor-transfer-limited': { extension: everyRung.extension.slice(0, 4) },
    'no-load-through-head': { extension: everyRung.extension.slice(0, 3) },
    'side-lying-limited': {
      extension: ['lying-head-press', ...everyRung.extension.slice(1)],
      flexion: ['propped-head-lightening', ...everyRung.flexion.slice(1)],
      'lateral-flexion': everyRung['lateral-flexion'].slice(0, 3),
    },
    'back-lying-limited': { flexion: everyRung.flexion.slice(0, 4), 'lateral-flexion': everyRung['lateral-flexion'].slice(1) },
    'no-jaw-pressure': { 'deep-flexors': ['deep-flexor-activation', 'head-lightening-nods', 'wall-nod-hold'] },
  }

  it.each(content.restrictions)('%s', (restriction) => {
    const now = Object.fromEntries(ladderIds.map((id) => [id, chosen(id, { restrictions: [restriction] })]))
    expect(now).toEqual({ ...everyRung, ...changed[restriction] })
  })
})

describe('what a contraindication closes', () => {
  const closed: Record<string, readonly string[]> = {
    glaucoma: ['supported-bridge'],
    'retinal-disease': ['supported-bridge'],
    ...Object.fromEntries(
      ['rheumatoid-arthritis', 'ankylosing-spondylitis', 'down-syndrome', 'connective-tissue-disease'].map((condition) => [
        condition,
        ['seated-band-flexion', 'propped-head-lift', 'lying-head-lift', 'side-lying-head-lift', 'turned-hold'],
      ]),
    ),
  }

  it.each(Object.entries(closed))('%s', (condition, ids) => {
    const open = ladderIds.flatMap((id) => chosen(id, { contraindications: [condition] }))
    expect(Object.values(everyRung).flat().filter((id) => !open.includes(id))).toEqual(ids)
  })
})

describe('the alternatives of a rung', () => {
  const rungs = ladderIds.flatMap((ladder) =>
    (content.ladders.get(ladder)?.rungs ?? []).filter(({ exercises }) => exercises.length > 1).map(({ rung, exercises }) => ({ ladder, rung, exercises })),
  )

  it.each(rungs)('of $ladder, rung $rung, ask the same work, so that whoever changes keeps their place', ({ exercises }) => {
    const asked = exercises.map(exerciseOf).map(({ work, posture, isLoaded, isTherapistOnly, needsApprovalToLeave, spacing, restSeconds }) => ({
      work,
      posture,
      isLoaded,
      isTherapistOnly,
      needsApprovalToLeave,
      spacing,
      restSeconds,
    }))
    expect(asked).toEqual(asked.map(() => asked[0]))
  })

  it.each(rungs)('of $ladder, rung $rung, begin with the usual one and say for whom the others are', ({ exercises }) => {
    expect(exercises.map(exerciseOf).map(({ chosenFor }) => chosenFor.length > 0)).toEqual(exercises.map((_, index) => index > 0))
  })
})

describe('a warm-up', () => {
  it('needs no equipment, has no load and is ruled out by nothing, since it is given to everybody', () => {
    const steps = ladderIds.flatMap((id) => content.ladders.get(id)?.warmUp ?? []).map(({ exercise }) => exerciseOf(exercise))
    const barred = steps.filter(({ equipment, ruledOutBy, isLoaded }) => isLoaded || [equipment, ruledOutBy.restrictions, ruledOutBy.contraindications].flat().length > 0)
    expect(barred.map(({ id }) => id)).toEqual([])
  })

  it('is one for both sides: it says no side', () => {
    const steps = ladderIds.flatMap((id) => content.ladders.get(id)?.warmUp ?? []).map(({ exercise }) => exerciseOf(exercise))
    expect(steps.filter(({ ladder }) => directionsOf(ladder).length > 1).map(({ id }) => id)).toEqual([])
  })
})

const all = ladderIds.flatMap(exercisesOf)

describe('the words of an exercise', () => {
  it.each(all.filter(({ isLoaded }) => isLoaded))('say how to get out of the load: $id', (exercise) => {
    expect(wordsOf(exercise, 'left').movement.filter((line) => /you (can|need to) get out/i.test(line))).toHaveLength(1)
  })

  it.each(all.filter(({ equipment }) => equipment.includes('harness') || equipment.includes('step')))(
    'want somebody within call and a phone at hand for a harness or a bridge: $id',
    (exercise) => {
      const setUp = wordsOf(exercise, 'left').setUp.join(' ')
      expect([/within call/.test(setUp), /phone in reach/.test(setUp)]).toEqual([true, true])
    },
  )

  it.each(all.filter(({ equipment }) => equipment.includes('band')))('have the band looked over and pulled at first: $id', (exercise) => {
    const setUp = wordsOf(exercise, 'left').setUp.join(' ')
    expect([/Look the band over/.test(setUp), /Pull at it hard/.test(setUp)]).toEqual([true, true])
  })

  it.each(all)('stop at dizziness, numbness, changed sight or balance, a sudden headache and pain above 5: $id', (exercise) => {
    const stopWhen = wordsOf(exercise, 'left').stopWhen.join(' ')
    const signs = [/above 5 out of 10/, /dizzy, sick or faint/, /goes numb, tingles or feels weak/, /[Ss]ight|flashes/, /balance/, /headache/]
    expect(signs.filter((sign) => !sign.test(stopWhen))).toEqual([])
  })

  it.each(all.filter(({ ladder }) => directionsOf(ladder).length > 1))('are each other’s mirror image on the two sides: $id', (exercise) => {
    const [left, right] = [wordsOf(exercise, 'left'), wordsOf(exercise, 'right')].map((side) => JSON.stringify(side))
    expect(left?.replace(/\b(left|right)\b/g, (side) => (side === 'left' ? 'right' : 'left'))).toBe(right)
    expect(left).not.toBe(right)
  })
})
