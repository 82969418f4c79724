// The hazard log names tests: each of them has to exist, or what it guards is guarded by nobody.
import { describe, expect, it } from 'vitest'
import { checkNamedTests, guardsOf, readLog } from './named-tests.ts'

const log = readLog('docs/hazards.md')

describe('the hazard log', () => {
  it('holds what can go wrong with signs, load, answers, alerts, time and storage', () => {
    expect(log.whole.match(/^## .+$/gmu)).toEqual(['## Signs and symptoms', '## Load', '## Answers and people', '## Alerts', '## Time, storage and change'])
    expect(log.matters.length).toBeGreaterThan(20)
  })

  it.each(log.matters)('says of "$title" how it comes about, what stands against it and what guards that', ({ text }) => {
    expect(text).toMatch(/^- \*\*How\*\*: /mu)
    expect(text).toMatch(/^- \*\*Control\*\*: /mu)
    expect(guardsOf(text).length).toBeGreaterThan(0)
  })

  checkNamedTests(log)
})
