import { describe, expect, it } from 'vitest'
import { createTryLimits, answersAnHour, wrongTriesAnHour, wrongTriesOverAllAnHour } from '#src/try-limits.ts'

const at = Date.UTC(2026, 5, 1, 12)
const hourMs = 3_600_000
const chat = (address: string) => ({ channel: 'net', address })

describe('the limits on tries', () => {
  it('leave a guesser of the claiming code less than one chance in a million a year, with six processes', () => {
    const codes = 2 ** 40
    const hoursAYear = 24 * 365.25
    expect((6 * wrongTriesOverAllAnHour * hoursAYear) / codes).toBeLessThan(1e-6)
    // Without any limit, at what a network brings in (our estimate: 1,000 a second), it would be found in decades.
    expect((1000 * 3600 * hoursAYear) / codes).toBeGreaterThan(0.01)
  })

  it('close a chat with its fifth wrong try, for an hour, and no other', () => {
    const limits = createTryLimits()
    const lasts = Array.from({ length: wrongTriesAnHour }, () => limits.noteWrong(chat('a'), at).isLast)
    expect(lasts).toEqual([false, false, false, false, true])
    expect(limits.admittance(chat('a'), at + hourMs - 1)).toBe('closed')
    expect(limits.admittance(chat('b'), at)).toBe('open')
    expect(limits.admittance(chat('a'), at + hourMs)).toBe('open')
  })

  it('forget a wrong try after an hour', () => {
    const limits = createTryLimits()
    for (let hours = 0; hours < 20; hours += 1) {
      expect(limits.noteWrong(chat('a'), at + hours * hourMs)).toEqual({ isLast: false, isOften: false })
    }
  })

  it('slow all down with the twentieth wrong try within an hour, which is told once', () => {
    const limits = createTryLimits()
    const often = Array.from({ length: wrongTriesOverAllAnHour + 5 }, (_, index) => limits.noteWrong(chat(`c${index}`), at + index).isOften)
    expect(often.flatMap((isOften, index) => (isOften ? [index + 1] : []))).toEqual([wrongTriesOverAllAnHour])
    expect(limits.admittance(chat('new'), at + 1000)).toBe('slow')
    expect(limits.admittance(chat('new'), at + 2 * hourMs)).toBe('open')
  })

  it('answer words that are no try five times an hour', () => {
    const limits = createTryLimits()
    const answered = Array.from({ length: answersAnHour + 1 }, () => limits.mayAnswer(chat('a'), at))
    expect(answered).toEqual([true, true, true, true, true, false])
    expect(limits.mayAnswer(chat('a'), at + hourMs)).toBe(true)
  })

  it('lock nobody out for longer because the clock was set back', () => {
    const limits = createTryLimits()
    for (let tries = 0; tries < wrongTriesAnHour; tries += 1) limits.noteWrong(chat('a'), at)
    expect(limits.admittance(chat('a'), at - 2 * hourMs)).toBe('open')
  })

  it('count over all whoever comes, though chats are forgotten when there are too many', () => {
    const limits = createTryLimits()
    for (let tries = 0; tries < wrongTriesAnHour; tries += 1) limits.noteWrong(chat('a'), at)
    for (let index = 0; index < 10_000; index += 1) limits.noteWrong(chat(`c${index}`), at)
    expect([limits.admittance(chat('c9999'), at), limits.admittance(chat('a'), at)]).toEqual(['slow', 'slow'])
  })
})
