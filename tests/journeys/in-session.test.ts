// What each answer in a session leads to, at once and next time.
import { describe, expect, it } from 'vitest'
import { inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'

const usual = 'two-hand press: 5 holds of 5 seconds, push 3 out of 10'
const eased = 'two-hand press: 5 holds of 4 seconds, push 3 out of 10'
const twiceEased = 'two-hand press: 5 holds of 3 seconds, push 3 out of 10'
const symptomQuestion = 'One question to be safe: is any of this new or worse right now?'

describe('pain in a set', () => {
  it('of 2 changes nothing', () => {
    const clinic = inFirstSet().doSets({ pain: 2 }, { pain: 2 })
    expect(clinic.dosesAsked).toEqual([`Set 1 of 3 – ${usual}`, `Set 2 of 3 – ${usual}`, `Set 3 of 3 – ${usual}`])
  })

  it('of 4 eases the remaining sets, once a session, and is not carried over', () => {
    const clinic = inFirstSet().doSets({ pain: 4 }, { pain: 4 }, { pain: 1 })
    expect(clinic.dosesAsked).toEqual([`Set 1 of 3 – ${usual}`, `Set 2 of 3 – ${eased}`, `Set 3 of 3 – ${eased}`])
    expect(clinic.client.read()).toContain('Next time: the same again.\ntwo-hand press: 3 sets of 5 holds of 5 seconds')
  })

  it('of 6 stops the direction, asks nothing more about the set and asks the symptom question', () => {
    const clinic = inFirstSet()
    clinic.client.press('Done').skip().write('6')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "We stop this exercise for today. Put everything down.

      One question to be safe: is any of this new or worse right now?
      [A fall, crash or blow] [Arm, leg or hands weak, numb, tingling or clumsy] [Dizzy, double vision, speech, swallowing or face] [Headache or neck pain that is sudden, or unlike any before] [Bladder, bowel, between the legs, or walking] [Fever, feeling ill, chest pain or breathless] [Something else is wrong] [None of these]"
    `)
    clinic.client.press('None of these')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Good, thank you. If that changes, stop and write to me at once.

      That was your session for today. It was right to stop.
      • two-hand press: 1 of 3 sets done

      Next time: a bit easier.
      two-hand press: 3 sets of 5 holds of 4 seconds, push 3 out of 10.
      Why: Pain in set 1 was 6 out of 10. That is too much. We had to stop the exercise.

      Next session: Wed 7 Jan, 18:00. If tomorrow morning is bad, I will make it easier.

      One last thing: how hard was the whole session? 0 is rest, 3 is moderate, 5 is hard, 7 is very hard, 10 is as hard as it can get.
      [0] [1] [2] [3] [4] [5] [6] [7] [8] [9] [10] [Skip this one]"
    `)
  })

  it('of 8 ends the session', () => {
    const clinic = inFirstSet()
    clinic.client.press('Done').skip().write('8')
    expect(clinic.client.read()).toContain(`We end the session here. Put everything down and rest your neck.\n\n${symptomQuestion}`)
    clinic.client.press('None of these')
    expect(clinic.asks).toBeNull()
    expect(clinic.chart().lock).toBeNull()
  })

  it('with a sign named at the symptom question alarms', () => {
    const clinic = inFirstSet()
    clinic.client.press('Done').write('6').press('Headache or neck pain that is sudden, or unlike any before')
    clinic.client.press('Sudden, worst headache ever')
    expect(clinic.chart().lock?.level).toBe('emergency')
  })
})

describe('control', () => {
  it('that was shaky keeps the dose', () => {
    const clinic = inFirstSet().doSets({ pain: 1, moved: 'A little' })
    expect(clinic.dosesAsked.at(-1)).toBe(`Set 2 of 3 – ${usual}`)
  })

  it('that was lost eases what is left; lost twice stops the direction', () => {
    const clinic = inFirstSet().doSets({ pain: 1, moved: 'Yes' })
    expect(clinic.client.read()).toContain('Put it down and take your time. The next set is easier.')
    expect(clinic.dosesAsked.at(-1)).toBe(`Set 2 of 3 – ${eased}`)
    clinic.doSets({ pain: 1, moved: 'Yes' })
    expect(clinic.client.read()).toContain(`We stop this exercise for today. Put everything down.\n\n${symptomQuestion}`)
  })

  it('lost in the last set does not speak of a next one', () => {
    const clinic = inFirstSet().doSets({ pain: 1 }, { pain: 1 }, { pain: 1, moved: 'Yes' })
    expect(clinic.client.read()).not.toContain('The next set is easier')
  })
})

describe('a set', () => {
  it('that was not finished gets a longer rest and eases what is left', () => {
    const clinic = inFirstSet().doSets({ pain: 1, press: 'I could not finish it' })
    expect(clinic.client.messages.at(-1)?.text).toBe(
      ['Rest for 120 seconds first.', 'This one is easier than before.', `Set 2 of 3 – ${eased}`, 'Sit tall, chin level, push slowly, keep on breathing.'].join('\n'),
    )
  })

  it('with nothing left gets a longer rest at the same dose', () => {
    const clinic = inFirstSet().doSets({ pain: 1, reserve: 0 })
    expect(clinic.client.messages.at(-1)?.text).toMatch(/^Rest for 120 seconds first\.\nSet 2 of 3 – two-hand press: 5 holds of 5 seconds/)
  })

  it('can be answered by typing the pain alone, and can be left out', () => {
    const clinic = inFirstSet()
    clinic.client.write('2').press('No').write('3').press('Leave this set out')
    expect(clinic.chart().session?.sets.map(({ report }) => report)).toEqual([{ pain: 2, control: 'steady', reserve: 3, finished: true }, null])
    expect(clinic.dosesAsked.at(-1)).toBe(`Set 3 of 3 – ${usual}`)
  })

  it('eased for two reasons is eased twice', () => {
    const clinic = inFirstSet().doSets({ pain: 4, moved: 'Yes' })
    expect(clinic.dosesAsked.at(-1)).toBe(`Set 2 of 3 – ${twiceEased}`)
  })
})

describe('pain before the session', () => {
  it('of 4 starts easier', () => {
    const clinic = inFirstSet({ painNow: 4 })
    expect(clinic.dosesAsked).toEqual([`Set 1 of 3 – ${eased}`])
    expect(clinic.client.messages.find(({ text }) => text.includes('Warm up first'))?.text).toMatch(/^You have some pain today, so we start easier\. That is fine\./)
  })

  it('of 6 leaves the session out, asks the symptom question and says what comes next, without praise', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Ready', 'None of these').skip().write('6').press('None of these')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Your pain is 6 out of 10. That is too much for training today. Please rest your neck.

      One question to be safe: is any of this new or worse right now?
      → None of these
      ---
      Good, thank you. If that changes, stop and write to me at once.

      Next time: a bit easier.
      two-hand press: 3 sets of 5 holds of 4 seconds, push 3 out of 10.
      Why: You had pain of 6 before we started, so your neck had to rest.

      Next session: Wed 7 Jan, 18:00. If tomorrow morning is bad, I will make it easier."
    `)
  })
})

describe('a session', () => {
  it('goes on with the same question after a restart in the middle of a set', () => {
    const clinic = inFirstSet()
    clinic.client.press('Done').write('2')
    const stored = JSON.parse(JSON.stringify(clinic.chart())) as ReturnType<typeof clinic.chart>
    const again = new JoinedClinic()
    again.rig.sleepUntil('2026-01-05T18:00:00Z')
    again.rig.store(stored)
    again.client.skip().write('no')
    expect(again.asks).toBe('session.reserve')
    again.client.write('3')
    expect(again.chart().session?.sets.map(({ report }) => report)).toEqual([{ pain: 2, control: 'steady', reserve: 3, finished: true }])
  })

  it('is one a local date', () => {
    const clinic = inFirstSet()
    while (clinic.asks === 'session.set') clinic.doSet()
    clinic.client.skip().write('ready')
    expect(clinic.asks).toBeNull()
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "There is no question open. Your next session: Wed 7 Jan, 18:00.
      If something feels wrong, write "something is wrong". For help, write "help"."
    `)
    clinic.rig.moveTo('2026-01-06T00:00:00Z')
    clinic.client.write('ready')
    expect(clinic.asks).toBe('session.screen')
  })

  it('asks the safety check anew after every answer but "none of these", and a second "ready" is no answer to it', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.write('ready', 'ready', 'done', 'yes')
    expect(clinic.asks).toBe('session.screen')
    clinic.client.press('A fall, crash or blow', 'None of these')
    expect(clinic.asks).toBe('session.screen')
    clinic.client.write('none')
    expect(clinic.asks).toBe('session.pain-now')
  })

  it('asks no loaded set before the warm-up, and ends where it cannot be done', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Ready', 'None of these').write('1').write('let us go straight to the press')
    expect(clinic.asks).toBe('session.warm-up')
    clinic.client.press('I cannot do it', 'None of these')
    expect(clinic.chart().session).toBeNull()
    expect(clinic.entries('set')).toEqual([])
  })

  it('stopped by a word ends with the symptom question, and what was done counts', () => {
    const clinic = inFirstSet().doSets({ pain: 1 })
    clinic.client.skip().write('I have had enough').press('None of these')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "All right, we stop here. Put everything down.

      One question to be safe: is any of this new or worse right now?
      → None of these
      ---
      Good, thank you. If that changes, stop and write to me at once.

      That was your session for today.
      • two-hand press: 1 of 3 sets done

      Next time: the same again.
      two-hand press: 3 sets of 5 holds of 5 seconds, push 3 out of 10.
      Why: Set 2 was not done. Set 3 was not done.

      Next session: Wed 7 Jan, 18:00. If tomorrow morning is bad, I will make it easier."
    `)
  })

  it('left for today before its first set says so and asks why, and the reason is kept', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Ready', 'None of these').skip().write('not today').press('No time')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "No problem. What keeps you from training today?
      → No time
      ---
      All right. I will ask again: Wed 7 Jan, 18:00."
    `)
    expect(clinic.entries('not-today').map((entry) => entry.data)).toEqual([{ why: 'no-time' }])
    expect(clinic.chart().session).toBeNull()
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    expect(clinic.asks).toBe('session.ready')
  })

  it('not begun because of soreness asks the symptom question', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.press('Not today', 'Sore or in pain')
    expect(clinic.asks).toBe('symptom.ask')
    clinic.client.press('None of these')
    expect(clinic.asks).toBeNull()
  })
})

describe('the pain at which to stop', () => {
  /** The lines under "Stop at once if" before the first set that speak of a number. */
  function limitsTold(protocol: string): readonly string[] {
    const clinic = new JoinedClinic({ plan: { ...extensionPlan, protocol } })
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.begin()
    return clinic.client.read().split('\n').filter((line) => /out of 10/.test(line) && /goes above/.test(line))
  }

  it('is told as the client’s own where the protocol draws it lower than the exercise says', () => {
    expect(limitsTold('very-weak-extensors')).toEqual([
      '• Pain in your neck, head or arm goes above 5 out of 10. If your therapist set a lower limit, go by that one.',
      '• Your own limit is lower: stop when pain goes above 4 out of 10.',
    ])
    expect(limitsTold('novice')).toHaveLength(1)
  })
})
