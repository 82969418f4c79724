// The threat list names tests in the form of the hazard log; what nothing guards stands apart and says so.
import { describe, expect, it } from 'vitest'
import { checkNamedTests, guardsOf, readLog } from './named-tests.ts'

const log = readLog('docs/security.md')
const headings = ['## Coming in', '## Who may do what', '## What is sent here', '## What is kept', '## What it is made of', '## What is not defended']
const defended = log.whole.slice(0, log.whole.indexOf('## What is not defended'))
const threats = log.matters.filter(({ title }) => defended.includes(`### ${title}`))
const others = log.matters.filter((matter) => !threats.includes(matter))

describe('the threat list', () => {
  it('holds who may come in, who may do what, what is sent, what is kept, what it is made of, and what is not defended', () => {
    expect(log.whole.match(/^## .+$/gmu)).toEqual(headings)
    expect(threats.length).toBeGreaterThan(14)
    expect(others.length).toBeGreaterThan(3)
  })

  it.each(threats)('says of "$title" who would do it and how, what stands against it and what guards that', ({ text }) => {
    expect(text).toMatch(/^- \*\*Who\*\*: /mu)
    expect(text).toMatch(/^- \*\*How\*\*: /mu)
    expect(text).toMatch(/^- \*\*Control\*\*: /mu)
    expect(guardsOf(text).length).toBeGreaterThan(0)
  })

  it.each(others)('says of "$title", which nothing here stands against, who would do it and what is left to do', ({ text }) => {
    expect(text).toMatch(/^- \*\*Who\*\*: /mu)
    expect(text).toMatch(/^- \*\*What remains\*\*: /mu)
    expect(guardsOf(text)).toEqual([])
  })

  checkNamedTests(log)
})
