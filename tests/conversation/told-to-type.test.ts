// What a text tells people to type is understood in the same language: `write "stop"` is worth nothing if "stop" is not.
import { describe, expect, it } from 'vitest'
import type { Language } from '#src/content/content.ts'
import { readMessage, type Awaiting, type Command } from '#src/conversation/reading/read-message.ts'
import { product } from '#tests/support/telegram-clinic.ts'

const { content } = product

interface Told {
  readonly key: string
  /** Of the phrases in straight quotes, counted from 0. */
  readonly place: number
  readonly means: Command | 'stop' | 'no' | 'correction'
}

const told: readonly Told[] = [
  { key: 'common.help', place: 0, means: 'symptom' },
  { key: 'common.help', place: 1, means: 'stop' },
  { key: 'common.help', place: 2, means: 'not-today' },
  { key: 'common.help', place: 3, means: 'why' },
  { key: 'common.help', place: 4, means: 'correction' },
  { key: 'common.help', place: 5, means: 'pause' },
  { key: 'common.help', place: 6, means: 'change-times' },
  { key: 'common.help', place: 7, means: 'move-zone' },
  { key: 'common.help', place: 8, means: 'write-therapist' },
  { key: 'common.nothing-to-stop', place: 0, means: 'symptom' },
  { key: 'common.idle', place: 0, means: 'ready' },
  { key: 'common.idle', place: 1, means: 'symptom' },
  { key: 'common.idle', place: 2, means: 'help' },
  { key: 'consent.welcome', place: 0, means: 'help' },
  { key: 'explain.client.more', place: 0, means: 'why-exactly' },
  { key: 'pause.until', place: 0, means: 'ready' },
  { key: 'pause.until', place: 1, means: 'symptom' },
  { key: 'pause.open', place: 0, means: 'ready' },
  { key: 'pause.welcome-back', place: 0, means: 'ready' },
  { key: 'withdrawal.done', place: 0, means: 'ready' },
  { key: 'withdrawal.idle', place: 0, means: 'ready' },
  { key: 'weekly.now.why', place: 0, means: 'stop' },
  { key: 'weekly.activity.example', place: 0, means: 'no' },
  { key: 'weekly.score.example', place: 0, means: 'skip' },
  { key: 'weekly.how-much.example', place: 0, means: 'skip' },
  { key: 'desk.finish-first', place: 0, means: 'stop' },
]

/** Whatever a text may be filled in with; it chooses the longer of two ways of saying it. */
const values = { number: '112', next: '', isPossible: 'yes', when: '', activity: '', time: '', turn: 'better', therapist: 'Maren Holt', count: 0 }

function quotedIn({ words }: Language, key: string): readonly string[] {
  return [...words.say(key, values).matchAll(/"([^"]+)"/g)].map(([, phrase = '']) => phrase)
}

function meaningOf(phrase: string, means: Told['means'], { lexicon }: Language): string | null {
  if (means === 'correction') return readMessage(`${phrase} 2`, 'pain', lexicon).isCorrection ? means : null
  const awaiting: Awaiting = means === 'no' ? 'yesno' : 'nothing'
  const { command, stop, value } = readMessage(phrase, awaiting, lexicon)
  if (stop) return 'stop'
  return value === false ? 'no' : command
}

const deskCommands = ['enrol', 'clients', 'measure', 'score', 'duty', 'invite']

describe.each([...content.languages])('what people are told to type in "%s"', (_name, language) => {
  it.each(told)('is understood: $key, $place', ({ key, place, means }) => {
    const phrase = quotedIn(language, key)[place] ?? ''
    expect([phrase, meaningOf(phrase, means, language)]).toEqual([phrase, means])
  })

  it.each([[0, 'yes'], [1, 'no']] as const)('is an answer to whether help was called: %i, %s', (place, answer) => {
    const { words } = language
    const phrase = quotedIn(language, 'called.called.example')[place] ?? ''
    const answers = [words.say(`called.called.${answer}`).toLowerCase(), ...words.say(`called.called.say-${answer}`).split('|')]
    expect(answers).toContain(phrase.toLowerCase())
  })

  it('is on the lists of the desk, for every line of its help and every word of its welcome', () => {
    const { words } = language
    const typedFor = (name: string): readonly string[] => words.say(`desk.say.${name}`).split('|')
    const all = deskCommands.filter((name) => words.has(`desk.say.${name}`)).flatMap(typedFor)
    const helped = [...words.say('desk.help').matchAll(/^([^–:]+) – /gm)].map(([, phrase = '']) => phrase)
    expect(helped.length).toBeGreaterThanOrEqual(5)
    expect(helped.filter((phrase) => !all.includes(phrase))).toEqual([])
    const welcomed = quotedInWelcome(language)
    expect(['enrol', 'clients', 'measure', 'invite'].filter((name, at) => !typedFor(name).includes(welcomed[at] ?? ''))).toEqual([])
  })
})

function quotedInWelcome({ words }: Language): readonly string[] {
  return [...words.say('desk.welcome', { name: 'Maren Holt' }).matchAll(/"([^"]+)"/g)].map(([, phrase = '']) => phrase)
}
