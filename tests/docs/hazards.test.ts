// The hazard log names tests: each of them has to exist, or what it guards is guarded by nobody.
import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { testTitlesIn } from '#tests/support/test-titles.ts'

const log = readFileSync('docs/hazards.md', 'utf8')
const hazards = log.split(/^### /mu).slice(1).map((text) => ({ title: text.slice(0, text.indexOf('\n')), text }))
const guard = /^ {2}- `(?<file>[^`]+)` – (?<title>.+)$/gmu

function guardsOf(text: string): readonly { readonly file: string; readonly title: string }[] {
  return [...text.matchAll(guard)].map(({ groups }) => ({ file: groups?.file ?? '', title: groups?.title ?? '' }))
}

const named = hazards.flatMap(({ text }) => guardsOf(text))

describe('the hazard log', () => {
  it('holds what can go wrong with signs, load, answers, alerts, time and storage', () => {
    expect(log.match(/^## .+$/gmu)).toEqual(['## Signs and symptoms', '## Load', '## Answers and people', '## Alerts', '## Time, storage and change'])
    expect(hazards.length).toBeGreaterThan(20)
  })

  it.each(hazards)('says of "$title" how it comes about, what stands against it and what guards that', ({ text }) => {
    expect(text).toMatch(/^- \*\*How\*\*: /mu)
    expect(text).toMatch(/^- \*\*Control\*\*: /mu)
    expect(guardsOf(text).length).toBeGreaterThan(0)
  })

  it.each(named)('names a test that exists: $file – $title', ({ file, title }) => {
    expect(existsSync(file), file).toBe(true)
    expect(testTitlesIn(file)).toContain(title)
  })

  it('has no line of a test that it does not understand', () => {
    expect(log.match(/`tests\/[^`]+`/gu)?.length).toBe(named.length)
  })
})
