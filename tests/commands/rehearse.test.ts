// The contract of `rehearse`: what comes out for which answers, and what is refused. Scripts depend on it.
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { SessionAnswers, SetAnswer } from '#src/commands/rehearse/answers-schema.ts'
import type { RehearsedSession } from '#src/commands/rehearse/collect-session.ts'
import { readAnswers } from '#src/commands/rehearse/read-answers.ts'
import { InputError } from '#src/commands/input-error.ts'
import { play } from '#tests/support/rehearsed.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from './run-here.ts'

const good: SetAnswer = { pain: 1, control: 'steady', reserve: 3 }
const numbHand = 'my left hand has gone numb and tingly'

function day(day: number, changes: Partial<SessionAnswers> = {}): SessionAnswers {
  return { day, before: { pain: 1 }, sets: { extension: [good, good, good] }, morning: { pain: 1 }, ...changes }
}

function withSets(...extension: (SetAnswer | null)[]): Partial<SessionAnswers> {
  return { sets: { extension } }
}

function rehearse(sessions: SessionAnswers[], approve?: boolean): readonly RehearsedSession[] {
  return play(extensionPlan, approve === undefined ? { sessions } : { sessions, approve })
}

/** `3 × 5 × 5 s, push 3: 1 steady 3 | –: maintain (set-left-out)`; `locked` where it is. */
function written({ locked, prescription, sets, decisions, alerts }: RehearsedSession): string {
  const work = prescription.filter((one) => !one.warmup).map((one) => `${one.sets} × ${one.reps} × ${one.hold_s} s, push ${one.push}`)
  const answers = sets.map(({ hold_s, answer }) => `${hold_s} s ${answer === null ? '–' : `${answer.pain} ${answer.control} ${answer.reserve}`}`)
  const decided = decisions.map(({ decision, reasons }) => `${decision} (${reasons.map(({ rule }) => rule).join(', ')})`)
  return [...(locked ? ['locked'] : []), ...work, answers.join(' | '), ...decided, ...alerts.map(({ level }) => level)].filter((part) => part !== '').join('; ')
}

function rehearsed(sessions: SessionAnswers[], approve?: boolean): readonly string[] {
  return rehearse(sessions, approve).map(written)
}

const three = '5 s 1 steady 3 | 5 s 1 steady 3 | 5 s 1 steady 3'
const entry = '3 × 5 × 5 s, push 3'
const cleanAtEntry = `${entry}; ${three}; progress (clean)`
const threeSixes = three.replaceAll('5 s', '6 s')

describe('the output of a session', () => {
  it('has exactly the keys of the contract, each null where there is nothing', () => {
    const dose = { reps: 5, hold_s: 5, load_kg: null, load_n: null, push: 3 }
    const answer = { pain: 1, control: 'steady', reserve: 3 }
    const set = { direction: 'extension', exercise: 'seated-hold-two-hands', ...dose, answer }
    const text = 'Clean: every set whole and comfortable, control steady, reserve at least 2, morning fine.'
    const warmUp = { rung: null, load_kg: null, load_n: null, push: null, warmup: true }
    expect(rehearse([day(0)])).toStrictEqual([
      {
        day: 0,
        locked: false,
        prescription: [
          { direction: 'deep-flexors', exercise: 'deep-flexor-activation', sets: 1, reps: 5, hold_s: 5, ...warmUp },
          { direction: 'extension', exercise: 'easy-neck-turns', sets: 1, reps: 5, hold_s: 2, ...warmUp },
          { direction: 'extension', exercise: 'seated-hold-two-hands', rung: 2, sets: 3, ...dose, warmup: false },
        ],
        sets: [set, set, set],
        decisions: [{ direction: 'extension', decision: 'progress', reasons: [{ rule: 'clean', text }] }],
        alerts: [],
      },
    ])
  })

  it('has a force on the band and a mass on the harness, and no hold', () => {
    const shown = ['seated-hold-two-hands', 'seated-band', 'seated-harness'] as unknown as (typeof extensionPlan.ladders)[number]['shown']
    const loads = [3, 4].map((rung) => {
      const plan = { ...extensionPlan, ladders: extensionPlan.ladders.map((ladder) => ({ ...ladder, rung, shown })) }
      const [session] = play(plan, { sessions: [day(0)] })
      return session?.prescription.at(-1)
    })
    const common = { direction: 'extension', sets: 3, reps: 8, hold_s: null, push: null, warmup: false }
    expect(loads).toStrictEqual([
      { ...common, exercise: 'seated-band', rung: 3, load_kg: null, load_n: 17.9 },
      { ...common, exercise: 'seated-harness', rung: 4, load_kg: 0.4, load_n: null },
    ])
  })

  it('is empty for a script without sessions', () => {
    expect(rehearse([])).toEqual([])
  })
})

describe('the answers of sets', () => {
  it.each<readonly [string, Partial<SessionAnswers>, string]>([
    ['null is a set left out', withSets(good, null, good), `${entry}; 5 s 1 steady 3 | 5 s – | 5 s 1 steady 3; maintain (set-left-out)`],
    ['too few leave the rest out', withSets(good), `${entry}; 5 s 1 steady 3 | 5 s – | 5 s –; maintain (set-left-out, set-left-out)`],
    ['a field missing is a set not answered', withSets(good, good, { pain: 1, control: 'steady' }), `${entry}; 5 s 1 steady 3 | 5 s 1 steady 3 | 5 s –; maintain (set-left-out)`],
    ['a field of null is missing too', withSets({ ...good, pain: null }, good, good), `${entry}; 5 s – | 5 s 1 steady 3 | 5 s 1 steady 3; maintain (set-left-out)`],
    ['none at all leave every set out', { sets: {} }, `${entry}; 5 s – | 5 s – | 5 s –; maintain (set-left-out, set-left-out, set-left-out)`],
    ['sets missing leave every set out', { sets: undefined }, `${entry}; 5 s – | 5 s – | 5 s –; maintain (set-left-out, set-left-out, set-left-out)`],
    ['too many are ignored', withSets(good, good, good, { pain: 9, control: 'lost', reserve: 0 }), cleanAtEntry],
    ['of a direction not prescribed are ignored', { sets: { extension: [good, good, good], flexion: [{ ...good, pain: 9 }] } }, cleanAtEntry],
    ['amber eases the sets that follow', withSets({ ...good, pain: 3 }, good, good), `${entry}; 5 s 3 steady 3 | 4 s 1 steady 3 | 4 s 1 steady 3; maintain (amber)`],
    ['red asks nothing more and is shown whole', withSets(good, { pain: 6, control: 'shaky', reserve: 0 }, good), `${entry}; 5 s 1 steady 3 | 5 s 6 shaky 0; ease (red, direction-stopped)`],
    ['not finished eases what follows and the next dose', withSets({ ...good, finished: false }, good, good), `${entry}; 5 s 1 steady 3 | 4 s 1 steady 3 | 4 s 1 steady 3; ease (not-finished)`],
    ['finished says nothing new', withSets({ ...good, finished: true }, good, good), cleanAtEntry],
    ['control lost twice stops the direction', withSets({ ...good, control: 'lost' }, { ...good, control: 'lost' }, good), `${entry}; 5 s 1 lost 3 | 4 s 1 lost 3; ease (direction-stopped, control-lost, control-lost)`],
  ])('%s', (_, changes, expected) => {
    expect(rehearsed([day(0, changes)])).toEqual([expected])
  })

  it('belong to the set prescribed, whether or not one before was left out', () => {
    expect(rehearsed([day(0, withSets(null, { ...good, pain: 2 }, null))])).toEqual([`${entry}; 5 s – | 5 s 2 steady 3 | 5 s –; maintain (set-left-out, set-left-out)`])
  })
})

describe('pain before a session', () => {
  it.each<readonly [number, string]>([
    [2, `3 × 5 × 6 s, push 3; ${threeSixes}; progress (clean)`],
    [4, `${entry}; ${three}; maintain (pain-before-amber)`],
    [5, `${entry}; ${three}; maintain (pain-before-amber)`],
    [6, `${entry}; ease (pain-before-red)`],
    [7, `${entry}; ease (pain-before-red)`],
    [8, 'locked; urgent'],
    [9, 'locked; urgent'],
  ])('of %i gives "%s"', (pain, expected) => {
    expect(rehearsed([day(0), day(3, { before: { pain } })])[1]).toBe(expected)
  })

  it('not answered ends the session at midnight with nothing prescribed, and the last one keeps waiting', () => {
    expect(rehearsed([day(0), day(3, { before: null }), day(6)])).toEqual([cleanAtEntry, '', `3 × 5 × 6 s, push 3; ${threeSixes}; progress (clean)`])
  })

  it('above 5 eases the next session and locks nothing', () => {
    expect(rehearsed([day(0, { before: { pain: 6 } }), day(3)])[1]).toBe('3 × 5 × 4 s, push 3; 4 s 1 steady 3 | 4 s 1 steady 3 | 4 s 1 steady 3; progress (clean)')
  })

  it('that is urgent never leaves a higher dose than pain that was only red, cleared or not', () => {
    const next = [7, 9].map((pain) => rehearse([day(0, { before: { pain: 6 } }), day(3, { before: { pain } }), day(6, { clear: true })])[2]?.prescription.at(-1)?.hold_s)
    expect(next).toEqual([2, 2])
  })
})

describe('the morning', () => {
  it.each<readonly [string, SessionAnswers['morning'], string]>([
    ['one above usual is fine', { pain: 2 }, 'progress (clean)'],
    ['two above usual eases', { pain: 3 }, 'ease (bad-morning)'],
    ['null is not answered', null, 'maintain (morning-missing)'],
    ['without pain is not answered', {}, 'maintain (morning-missing)'],
    ['missing is not answered', undefined, 'maintain (morning-missing)'],
  ])('%s', (_, morning, expected) => {
    // The decision is final whether or not another session follows.
    const last = rehearsed([day(0, { morning })])
    const followed = rehearsed([day(0, { morning }), day(3)]).slice(0, 1)
    expect([last, followed]).toEqual([[`${entry}; ${three}; ${expected}`], [`${entry}; ${three}; ${expected}`]])
  })

  it('not answered does not stand in the way of a session on a day without a reminder', () => {
    expect(rehearsed([day(0, { morning: null }), day(1)])).toEqual([`${entry}; ${three}; maintain (morning-missing)`, cleanAtEntry])
  })

  it('is answered on a Monday too, when the weekly question comes first', () => {
    expect(rehearsed([6, 13, 20].map((sunday) => day(sunday))).map((session) => session.split('; ').at(-1))).toEqual(['progress (clean)', 'progress (clean)', 'progress (clean)'])
  })

  it('is answered once it is asked, where the quiet hours end after eight', () => {
    const plan = { ...extensionPlan, schedule: { ...extensionPlan.schedule, quiet: { from: '21:00', to: '09:30' } } }
    expect(play(plan, { sessions: [day(0), day(1)] }).map(written).map((session) => session.split('; ').at(-1))).toEqual(['progress (clean)', 'progress (clean)'])
  })
})

describe('words that raise a red flag', () => {
  const flagged: SetAnswer = { ...good, says: numbHand }

  it('before the session lock it with nothing asked, until a session clears it before it begins', () => {
    const before = { pain: 1, says: numbHand }
    expect(rehearsed([day(0), day(3, { before }), day(6), day(9, { clear: true }), day(12), day(15), day(18)])).toEqual([
      cleanAtEntry,
      'locked; urgent',
      'locked',
      // One ease down, and no progress for two sessions.
      `${entry}; ${three}; maintain (no-progress-after-lock, clean)`,
      `${entry}; ${three}; maintain (no-progress-after-lock, clean)`,
      cleanAtEntry,
      `3 × 5 × 6 s, push 3; ${threeSixes}; progress (clean)`,
    ])
  })

  it.each<readonly [string, Partial<SessionAnswers>, string]>([
    ['the first set keep that set, unanswered', withSets(flagged, good, good), '5 s –'],
    ['the second set keep both, the second unanswered', withSets(good, flagged, good), '5 s 1 steady 3 | 5 s –'],
    ['a set without numbers count as much', withSets({ says: numbHand }), '5 s –'],
  ])('with %s, and lock the sessions after', (_, changes, sets) => {
    expect(rehearsed([day(0, changes), day(3), day(6, { clear: true })])).toEqual([
      `${entry}; ${sets}; stop (red-flag, ended-early, morning-missing); urgent`,
      'locked',
      '3 × 5 × 4 s, push 3; 4 s 1 steady 3 | 4 s 1 steady 3 | 4 s 1 steady 3; maintain (no-progress-after-lock, clean)',
    ])
  })

  it('of an emergency lock as well, and the alert says so', () => {
    const [first, second] = rehearse([day(0, withSets({ ...good, says: 'half of my face has gone numb' })), day(3)])
    expect([first?.alerts, second?.locked]).toEqual([[{ level: 'emergency', text: 'Numbness of the face or of one half of the body' }], true])
  })

  it('are not seen in words that deny it, and the numbers follow', () => {
    expect(rehearsed([day(0, { before: { pain: 1, says: 'no numbness today' }, ...withSets({ ...good, says: 'no dizziness at all' }, good, good) })])).toEqual([cleanAtEntry])
  })

  it('that are routine alert and lock nothing', () => {
    expect(rehearsed([day(0, { before: { pain: 1, says: 'I have a fever' } }), day(3)])).toEqual([`${cleanAtEntry}; routine`, `3 × 5 × 6 s, push 3; ${threeSixes}; progress (clean)`])
  })

  it('are not sent for a set that is never asked', () => {
    expect(rehearsed([day(0, withSets({ ...good, pain: 6 }, good, flagged)), day(3)]).map((session) => session.includes('urgent'))).toEqual([false, false])
  })

  it('do nothing more while locked', () => {
    expect(rehearsed([day(0, { before: { pain: 1, says: numbHand } }), day(3, { before: { pain: 1, says: numbHand } })])).toEqual(['locked; urgent', 'locked'])
  })
})

describe('the therapist', () => {
  // Over before the 28th day, from which a review is missed.
  const climb = Array.from({ length: 14 }, (_, index) => day(index * 2))

  it('who never answers keeps the client at the top of the rung', () => {
    const tops = rehearse(climb, false).slice(-3)
    expect(tops.map(written)).toEqual(Array<string>(3).fill(`3 × 5 × 10 s, push 5; ${three.replaceAll('5 s', '10 s')}; maintain (rung-not-shown, clean)`))
  })

  it.each([true, undefined])('who approves at once (%s) lets them on to the band', (approve) => {
    expect(rehearse(climb, approve).at(-1)?.prescription.at(-1)).toMatchObject({ exercise: 'seated-band', rung: 3, reps: 12, load_n: 17.9 })
  })

  it('who never answers has no review either: no progress from the 28th day, no sessions from the 42nd', () => {
    const days = [24, 27, 28, 41, 42].map((last) => rehearse([day(last)], false)[0])
    expect(days.map((session) => session?.decisions[0]?.reasons.map(({ rule }) => rule) ?? [])).toEqual([
      ['clean'],
      ['clean'],
      ['supervision-lapsed', 'clean'],
      ['supervision-lapsed', 'clean'],
      [],
    ])
    expect(days.map((session) => session?.prescription.length)).toEqual([3, 3, 3, 3, 0])
  })

  it('who reviews weekly lets a client start after a long time', () => {
    expect(written(rehearse([day(42)])[0] ?? { day: 0, locked: true, prescription: [], sets: [], decisions: [], alerts: [] })).toBe(cleanAtEntry)
  })
})

describe('a file of answers', () => {
  async function complaint(name: string, text: string): Promise<string> {
    const path = join(await makeTemporaryFolder(), name)
    await writeFile(path, text)
    try {
      readAnswers(path)
    } catch (error) {
      if (error instanceof InputError) return error.message.slice(path.length)
      throw error
    }
    return 'nothing wrong'
  }

  it.each([
    ['{"sessions":[],"aprove":true}', ': the script has keys that are not known: aprove. Remove them'],
    ['{"sessions":[{"day":0,"befor":{}}]}', ': sessions[0] has keys that are not known: befor. Remove them'],
    ['{"sessions":[{"day":0,"before":{"pian":1}}]}', ': sessions[0].before has keys that are not known: pian. Remove them'],
    ['{"sessions":[{"day":0,"sets":{"extension":[null,{"rest":1}]}}]}', ': sessions[0].sets.extension[1] has keys that are not known: rest. Remove them'],
    ['{"sessions":[{"day":0,"morning":{"pain":1,"at":"08:00"}}]}', ': sessions[0].morning has keys that are not known: at. Remove them'],
  ])('with an unknown key is refused with its path: %s', async (text, expected) => {
    expect(await complaint('answers.json', text)).toBe(expected)
  })

  it.each([
    ['{"sessions":[{"day":0,"before":{"pain":11}}]}', 'sessions[0].before.pain'],
    ['{"sessions":[{"day":0,"before":{"pain":-1}}]}', 'sessions[0].before.pain'],
    ['{"sessions":[{"day":0,"before":{"pain":1.5}}]}', 'sessions[0].before.pain'],
    ['{"sessions":[{"day":0,"sets":{"extension":[{"pain":1,"control":"wobbly","reserve":1}]}}]}', 'sessions[0].sets.extension[0].control'],
    ['{"sessions":[{"day":0,"sets":{"extension":[{"pain":1,"control":"steady","reserve":-1}]}}]}', 'sessions[0].sets.extension[0].reserve'],
    ['{"sessions":[{"day":-1}]}', 'sessions[0].day'],
    ['{"sessions":[{"day":3},{"day":3}]}', 'sessions[1].day'],
    ['{"sessions":[{"day":3},{"day":2}]}', 'sessions[1].day'],
    ['{"sessions":[{"day":0,"clear":"yes"}]}', 'sessions[0].clear'],
    ['{"approve":true}', 'sessions'],
  ])('with a value out of range is refused with its path: %s', async (text, path) => {
    expect(await complaint('answers.json', text)).toMatch(new RegExp(`^: ${path.replace(/[[\].]/g, '\\$&')} is not usable: .+`))
  })

  it('with every kind of answer, and none, is read', async () => {
    const text = JSON.stringify({ sessions: [day(0), { day: 1 }, { day: 2, before: null, sets: { extension: [null, {}] }, morning: null, clear: true }], approve: false })
    expect(await complaint('answers.json', text)).toBe('nothing wrong')
  })

  it('of lines is checked whole before the first is played', async () => {
    expect(await complaint('answers.jsonl', '{"sessions":[]}\n\n{"sessions":[{"day":0,"extra":1}]}\n')).toBe(':3: sessions[0] has keys that are not known: extra. Remove them')
  })

  it('of lines gives one line each, equal to what each gives alone', async () => {
    const path = join(await makeTemporaryFolder(), 'answers.jsonl')
    const scripts = [{ sessions: [day(0), day(3)] }, { sessions: [] }, { sessions: [day(0, { before: { pain: 6 } })], approve: false }]
    await writeFile(path, scripts.map((script) => JSON.stringify(script)).join('\n'))
    const { status, printed, complaints } = await runHere(['rehearse', '--plan', 'content/plans/extension.yaml', '--answers', path, '--json'])
    const alone = scripts.map((script) => JSON.stringify({ sessions: play(extensionPlan, script) }))
    expect({ status, printed, complaints }).toEqual({ status: 0, printed: alone, complaints: [] })
  })
})
