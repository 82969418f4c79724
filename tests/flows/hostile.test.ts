// Whatever anybody sends, in any order: no step throws, nothing answered is lost, nobody is left without a question. Here whole
// sequences, through all flows and beyond them; ten thousand messages a flow stand in `hostile-client` and `hostile-desk`.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { newClinic } from '#src/chart/clinic.ts'
import { runs, seed, timeoutMs } from '../properties/runs.ts'
import { lostBy } from './hostile/kept.ts'
import { anyMoves, anySaid, type Move } from './hostile/moves.ts'
import { happeningOf, moveOn, type Playing } from './hostile/play.ts'
import { anyText } from './hostile/texts.ts'
import { allStarts } from './starts.ts'
import { isDeadEnd, type Standing } from './walk.ts'

describe(`hostile messages and presses (seed ${seed})`, () => {
  it.each(Object.entries(allStarts))('from "%s" on never break a step, lose an answer, lift a lock or end in a dead end', { timeout: timeoutMs }, (_name, start) => {
    const begin: Playing = start()
    fc.assert(
      fc.property(anyMoves, (moves) => {
        let playing = begin
        for (const move of moves) {
          const before = playing
          playing = moveOn(before, move)
          expect(lostBy(before.document, playing.document, move.kind === 'wait' ? null : happeningOf(before, move))).toEqual([])
          if (playing.document.contact !== null) expect(isDeadEnd(playing as Standing)).toBe(false)
        }
      }),
      { seed, numRuns: runs(20) },
    )
  })

  it('at the clinic never break a step, and tell of nobody', { timeout: timeoutMs }, () => {
    fc.assert(
      fc.property(anyMoves, (moves) => {
        let playing = { document: newClinic(), at: 0, buttons: [], said: [], tells: 0 } as unknown as Playing
        for (const move of moves) {
          playing = moveOn(playing, move)
          expect(playing.said.join()).not.toMatch(/Orla|Maren|Idris/)
        }
      }),
      { seed, numRuns: runs(100) },
    )
  })
})

/** Which conversation is open after each move, and which lock is on. */
function seenOnTheWay(begin: Playing, moves: readonly Move[]): readonly string[] {
  let playing = begin
  return moves.flatMap((move) => {
    playing = moveOn(playing, move)
    const { document } = playing
    const lock = document.kind === 'chart' && document.lock ? [`lock ${document.lock.level}`] : []
    return [document.conversations.at(-1)?.flow ?? 'none', ...lock]
  })
}

const kinds: Readonly<Record<string, (text: string) => boolean>> = {
  'nothing at all': (text) => text === '',
  'thousands of characters': (text) => text.length > 3000,
  'right to left': (text) => /[\u0590-\u07ff]/u.test(text),
  'marks of direction': (text) => /[\u202a-\u202e\u2066-\u2069]/u.test(text),
  'combining marks': (text) => /\p{M}/u.test(text),
  'control characters': (text) => /\p{Cc}/u.test(text),
  'halves of pairs': (text) => /\p{Cs}/u.test(text),
  'zero width': (text) => /\u200b|\u2060/u.test(text),
  markup: (text) => /<b>|\*\*|&lt;/.test(text),
  braces: (text) => text.includes('{'),
  'emoji with skin tones': (text) => /\p{Emoji_Modifier}/u.test(text),
  'digits of another script': (text) => /(?![0-9])\p{Nd}/u.test(text),
  'commands with a slash': (text) => /^\/\w/.test(text),
  'a sign beside a number': (text) => text === 'my left hand tingles and 4',
}

describe('the moves of the hostile tests', () => {
  it('reach a question of every conversation and a lock', () => {
    const sample = fc.sample(anyMoves, { seed, numRuns: 6 })
    const begins = Object.values(allStarts).map((start) => start())
    const seen = new Set(begins.flatMap((begin) => sample.flatMap((moves) => seenOnTheWay(begin, moves))))
    const wanted = [
      ...['answering', 'called', 'clearing', 'consent', 'disability', 'duty', 'enrolment', 'lock emergency', 'lock urgent', 'measuring', 'message', 'morning', 'none'],
      ...['pause', 'placing', 'session', 'settling-in', 'symptom', 'times', 'weekly', 'withdrawal', 'zone'],
    ]
    expect([...seen].toSorted()).toEqual(wanted)
  })

  it('hold words of every kind that has broken a chat before', () => {
    const texts = fc.sample(anyText, { seed, numRuns: 3000 })
    expect(Object.entries(kinds).filter(([, isOfKind]) => !texts.some(isOfKind)).map(([name]) => name)).toEqual([])
    expect(texts.every((text) => text.length <= 5000)).toBe(true)
  })

  it('hold edits, and buttons of this question, of another, of another person and of nobody', () => {
    const moves = fc.sample(anySaid, { seed, numRuns: 3000 })
    const presses = moves.flatMap((move) => (move.kind === 'press' ? [move.data] : []))
    expect(moves.some((move) => move.kind === 'message' && move.isEdit)).toBe(true)
    expect(moves.some((move) => move.kind === 'value' && move.earlier !== 0) && moves.some((move) => move.kind === 'open-button')).toBe(true)
    expect(['p:', 'm:', 'd:'].filter((prefix) => !presses.some((data) => data.startsWith(prefix)))).toEqual([])
  })
})
