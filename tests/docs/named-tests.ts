// What a log of hazards or threats says guards it: tests by file and title, which have to exist or nobody guards it.
import { existsSync, readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { testTitlesIn } from '#tests/support/test-titles.ts'

interface Named {
  readonly file: string
  readonly title: string
}

interface Matter {
  readonly title: string
  readonly text: string
}

export interface NamedTests {
  readonly whole: string
  readonly matters: readonly Matter[]
}

const guard = /^ {2}- `(?<file>[^`]+)` – (?<title>.+)$/gmu

export function readLog(file: string): NamedTests {
  const whole = readFileSync(file, 'utf8')
  const matters = whole.split(/^### /mu).slice(1).map((text) => ({ title: text.slice(0, text.indexOf('\n')), text }))
  return { whole, matters }
}

export function guardsOf(text: string): readonly Named[] {
  return [...text.matchAll(guard)].map(({ groups }) => ({ file: groups?.file ?? '', title: groups?.title ?? '' }))
}

/** Within a `describe`: every test that the log names exists, and no line that names one is misread. */
export function checkNamedTests({ whole, matters }: NamedTests): void {
  const named = matters.flatMap(({ text }) => guardsOf(text))

  it.each(named)('names a test that exists: $file – $title', ({ file, title }) => {
    expect(existsSync(file), file).toBe(true)
    expect(testTitlesIn(file)).toContain(title)
  })

  it('has no line of a test that it does not understand', () => {
    expect(whole.match(/`tests\/[^`]+`/gu)?.length).toBe(named.length)
  })
}
