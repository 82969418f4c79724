// Sources: Taylor 2006, Aviat Space Environ Med 77(11):1131-1135 [found] https://pubmed.ncbi.nlm.nih.gov/17086765/ : three
// days a week; its loads could not be confirmed and are not tested, its four weeks between tests are in protocols.test.ts. Pollock 1993, Arch Phys Med
// Rehabil 74(10):1080-1086 [found] https://pubmed.ncbi.nlm.nih.gov/8215860/ : two sessions a week do more than one.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readPlan } from '#src/content/read-plan.ts'
import { shippedContent } from '#tests/support/content-copy.ts'
import { content } from '#tests/support/sample-chain.ts'

describe('sessions a week', () => {
  it('are three at most for what needs forty hours of rest, harness and bridge among it (Taylor 2006: three)', () => {
    const hardest = [...content.exercises.values()].filter(({ spacing }) => spacing.hours >= 40)
    expect(hardest.map(({ id }) => String(id))).toEqual(expect.arrayContaining(['seated-harness', 'supported-bridge']))
    expect(hardest.map(({ spacing }) => spacing.sessionsPerWeek)).toEqual(hardest.map(() => 3))
  })

  it('are two at least in the plans to try (Pollock 1993: two do more than one)', () => {
    const files = readdirSync(`${shippedContent}/plans`)
    const days = files.map((file) => readPlan(readFileSync(`${shippedContent}/plans/${file}`, 'utf8'), file, content).schedule.days.length)
    expect(days.length).toBeGreaterThan(0)
    expect(days.filter((count) => count < 2)).toEqual([])
  })
})
