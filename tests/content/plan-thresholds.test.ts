import { describe, expect, it } from 'vitest'
import { protocolOf } from '#src/chart/client/plan-facts.ts'
import { readPlan } from '#src/content/read-plan.ts'
import { lineIn, problemsOf } from '#tests/support/content-copy.ts'
import { content, extensionPlanText, novice } from '#tests/support/sample-chain.ts'

function planWith(thresholds: string): string {
  return extensionPlanText.replace('protocol: novice\n', `protocol: novice\nthresholds:\n${thresholds}\n`)
}

describe('what a therapist sets otherwise in a plan', () => {
  it('is in force, and the rest is the protocol', () => {
    const text = planWith('  pain: { comfortable_up_to: 3 }\n  progress: { is_automatic: false }\n  working: { lateral-flexion: { target: 0.3 } }')
    const plan = readPlan(text, 'plan.yaml', content)
    expect(plan.thresholds).toEqual({ pain: { comfortableUpTo: 3 }, progress: { isAutomatic: false }, working: { 'lateral-flexion': { target: 0.3 } } })
    expect(protocolOf(plan, content)).toEqual({
      ...novice(),
      pain: { ...novice().pain, comfortableUpTo: 3 },
      progress: { isAutomatic: false },
      working: { ...novice().working, 'lateral-flexion': { warmUp: 0.2, target: 0.3 } },
    })
  })

  it.each([
    {
      title: 'past a bound', thresholds: '  pain:\n    comfortable_up_to: 4', at: 'comfortable_up_to: 4',
      path: 'thresholds.pain.comfortable_up_to', message: 'must be at most 3', mend: 'Lower it to 3 or less.',
    },
    {
      title: 'an unknown threshold', thresholds: '  pain:\n    comfy: 2', at: 'comfy',
      path: 'thresholds.pain.comfy', message: 'is no known key here', mend: 'Remove it, or mend its spelling.',
    },
    {
      title: 'an unknown group', thresholds: '  pains:\n    amber_up_to: 4', at: 'pains',
      path: 'thresholds.pains', message: 'is no known key here', mend: 'Remove it, or mend its spelling.',
    },
    {
      title: 'a value with a source, as in a protocol', thresholds: '  retest:\n    every_days: { value: 21, source: our choice }', at: 'every_days',
      path: 'thresholds.retest.every_days', message: 'must be a number', mend: 'Write a plain number, without quotes and without a unit.',
    },
    {
      title: 'the higher of two that contradict each other', thresholds: '  absence:\n    ease_after_days: 7', at: 'ease_after_days',
      path: 'thresholds.absence.ease_after_days', message: 'must be above 7, the threshold before it', mend: 'Change it, or set the other one in the plan as well.',
    },
    {
      title: 'the lower of two that contradict each other', thresholds: '  absence:\n    withdraw_after_days: 10\n    ease_after_days: 14\n  loaded_rung:\n    days: 14\n  maximum:\n    band_entry: 0.2', at: 'band_entry',
      path: 'thresholds.maximum.band_entry', message: 'must be below 0.2, the threshold after it', mend: 'Change it, or set the other one in the plan as well.',
    },
    {
      title: 'more sets than a session holds', thresholds: '  session:\n    most_sets: 5', at: 'most_sets',
      path: 'thresholds.session.most_sets', message: 'must be at least 6, the sets of lateral-flexion', mend: 'Change it, or set the other one in the plan as well.',
    },
  ])('is refused with line and mend: $title', ({ thresholds, at, path, message, mend }) => {
    const text = planWith(thresholds)
    const problems = problemsOf(() => readPlan(text, 'plan.yaml', content))
    expect(problems[0]).toEqual({ file: 'plan.yaml', line: lineIn(text, at), path, message, mend })
    expect(new Set(problems.map((problem) => problem.line)).size).toBe(1)
  })
})
