import { describe, expect, it } from 'vitest'
import { describeInstant } from '#src/schedule/describe-instant.ts'

const at = Date.parse('2027-01-04T18:00Z')

describe('an instant in words', () => {
  it.each([
    ['Europe/Dublin', 'en', 'Mon 4 Jan, 18:00'],
    ['Pacific/Auckland', 'en', 'Tue 5 Jan, 07:00'],
    ['America/St_Johns', 'en', 'Mon 4 Jan, 14:30'],
    ['UTC', 'en-GB', 'Mon 4 Jan, 18:00'],
  ])('in %s, %s, is %s', (zone, language, words) => {
    expect(describeInstant(at, zone, language)).toBe(words)
  })

  it('takes day and month from the language, and the clock in 24 hours from all', () => {
    const words = ['de', 'es', 'fr'].map((language) => describeInstant(Date.parse('2027-05-04T23:05Z'), 'UTC', language))
    expect(words.map((text) => [/\b4\b/.test(text), text.slice(-7)])).toEqual(words.map(() => [true, ', 23:05']))
    expect(new Set(words).size).toBe(3)
  })

  it('shows midnight as the start of the day', () => {
    expect(describeInstant(Date.parse('2027-01-05T00:00Z'), 'UTC', 'en')).toBe('Tue 5 Jan, 00:00')
  })
})
