// What is counted of a client's training, and the one question about a whole session.
import { describe, expect, it } from 'vitest'
import { emptyWeek, type TrainingWeek } from '#src/rules/training-record.ts'
import { inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'

// Orla trains on Mondays, Wednesdays and Fridays at 18:00; 5 January 2026 is a Monday, in the second ISO week.
const question = 'One last thing: how hard was the whole session?'

/** Half an hour after the beginning of a whole clean session, asked how hard it was. */
function asked(): JoinedClinic {
  const clinic = inFirstSet().doSet().doSet()
  clinic.rig.pass({ minutes: 30 })
  clinic.client.skip().press('Done').write('1').press('No').write('3')
  return clinic
}

function week(clinic: JoinedClinic): TrainingWeek | undefined {
  return clinic.chart().training.weeks.at(-1)
}

describe('how hard a session was', () => {
  it('is asked once it is over, under what was done', () => {
    const clinic = asked()
    expect(clinic.asks).toBe('session.effort')
    const paragraphs = clinic.client.messages.at(-1)?.text.split('\n\n')
    expect(paragraphs?.map((part) => part.split('\n')[0])).toEqual([
      'That was your session. Well done.',
      'Next time: one small step up.',
      'Next session: Wed 7 Jan, 18:00. If tomorrow morning is bad, I will make it easier.',
      `${question} 0 is rest, 3 is moderate, 5 is hard, 7 is very hard, 10 is as hard as it can get.`,
    ])
  })

  it.each([
    ['4', 4, 'Thank you. That is noted.', { effortMinutes: 120, rated: 1 }],
    ['7/10', 7, 'Thank you. That is noted.', { effortMinutes: 210, rated: 1 }],
    ['0', 0, 'Thank you. That is noted.', { effortMinutes: 0, rated: 1 }],
    ['skip', null, 'All right.', { effortMinutes: 0, rated: 0 }],
  ])('is recorded with its minutes: %s', (words, effort, reply, sums) => {
    const clinic = asked()
    clinic.client.skip().write(words)
    expect(clinic.client.read()).toBe(reply)
    expect(clinic.asks).toBeNull()
    expect(clinic.entries('session-effort').map(({ data }) => data)).toEqual([{ session: clinic.chart().pending?.id, effort, minutes: 30 }])
    expect(week(clinic)).toMatchObject(sums)
  })

  it.each(['11', 'ouch', 'no pain'])('is asked again after "%s"', (words) => {
    const clinic = asked()
    clinic.client.skip().write(words)
    expect(clinic.client.read()).toContain(question)
    expect(clinic.entries('session-effort')).toEqual([])
  })

  it('has no load where the session was left lying for hours', () => {
    const clinic = asked()
    const { training } = clinic.chart()
    clinic.rig.store({ ...clinic.chart(), training: { ...training, unrated: training.unrated && { ...training.unrated, minutes: 121 } } })
    clinic.client.write('4')
    expect(week(clinic)).toMatchObject({ effortMinutes: 0, rated: 0 })
  })

  it('changes no decision and no dose, answered or not', () => {
    const outcomes = ['0', '10', 'skip', null].map((words) => {
      const clinic = asked()
      if (words !== null) clinic.client.write(words)
      clinic.rig.moveTo('2026-01-07T18:00:00Z')
      clinic.begin()
      return { states: clinic.chart().states, prescribed: clinic.chart().session?.prescribed, decisions: clinic.chart().lastDecisions }
    })
    expect(new Set(outcomes.map((outcome) => JSON.stringify(outcome))).size).toBe(1)
  })

  it('holds nothing up when it stays open: neither the morning, nor the next session, nor a "ready" after midnight', () => {
    const morning = asked()
    morning.rig.moveTo('2026-01-06T08:00:00Z')
    expect(morning.asks).toBe('morning.pain')
    const night = asked()
    night.rig.moveTo('2026-01-06T00:30:00Z')
    night.client.write('ready')
    expect(night.asks).toBe('session.screen')
  })

  it('is left by "stop" with the question whether something is wrong, and by "not today"', () => {
    const stopped = asked()
    stopped.client.write('stop')
    expect(stopped.asks).toBe('symptom.ask')
    const left = asked()
    left.client.write('not today')
    expect(left.asks).toBeNull()
    expect([...stopped.entries('session-effort'), ...left.entries('not-today')]).toEqual([])
  })

  it('answered with a sign is heard as a sign', () => {
    const clinic = asked()
    clinic.client.write('10, and half my face is drooping')
    expect(clinic.chart().lock?.level).toBe('emergency')
    expect(clinic.entries('session-effort')).toEqual([])
  })

  it.each([
    ['stopped', (clinic: JoinedClinic) => clinic.client.write('stop').press('None of these')],
    ['was ended by pain', (clinic: JoinedClinic) => clinic.client.press('Done').write('8').press('None of these')],
    ['had a red flag', (clinic: JoinedClinic) => clinic.client.write('half my face is drooping')],
    ['fell asleep', (clinic: JoinedClinic) => clinic.rig.moveTo('2026-01-06T00:00:00Z')],
    ['had no more time', (clinic: JoinedClinic) => clinic.client.write('not today').press('None of these')],
  ])('is not asked of a client who %s', (_, end) => {
    const clinic = inFirstSet().doSet()
    end(clinic)
    expect(clinic.chart().session).toBeNull()
    expect(clinic.client.messages.filter(({ text }) => text.includes(question))).toEqual([])
    expect(week(clinic)).toMatchObject({ prescribed: 1, done: 1, sets: clinic.entries('set').filter(({ data }) => data.report !== null).length })
  })

  it('is not asked where no set was done', () => {
    const clinic = inFirstSet()
    while (clinic.asks === 'session.set') clinic.client.press('Leave this set out')
    expect(clinic.asks).toBeNull()
  })
})

describe('the sums of a week', () => {
  it('hold repetitions, seconds and sets of a session of holds', () => {
    const clinic = asked()
    expect(week(clinic)).toEqual({
      ...emptyWeek('2026-W02'),
      prescribed: 1,
      done: 1,
      sets: 3,
      tensionSeconds: 3 * 5 * 5,
      volumes: { extension: { repetitions: 15, kilogramRepetitions: 0, newtonRepetitions: 0 } },
    })
  })
})

describe('what was prescribed and done', () => {
  const monday = '2026-01-05T18:00:00Z'

  const moves = {
    remind: (clinic: JoinedClinic) => clinic.rig.moveTo(monday),
    'monday 20:00': (clinic: JoinedClinic) => clinic.rig.moveTo('2026-01-05T20:00:00Z'),
    'tuesday noon': (clinic: JoinedClinic) => clinic.rig.moveTo('2026-01-06T12:00:00Z'),
    'thursday noon': (clinic: JoinedClinic) => clinic.rig.moveTo('2026-01-08T12:00:00Z'),
    'sunday noon': (clinic: JoinedClinic) => clinic.rig.moveTo('2026-01-11T12:00:00Z'),
    'machine off until tuesday': (clinic: JoinedClinic) => clinic.rig.sleepUntil('2026-01-06T12:00:00Z'),
    ready: (clinic: JoinedClinic) => void clinic.client.press('Ready'),
    later: (clinic: JoinedClinic) => void clinic.client.press('Later'),
    'no time': (clinic: JoinedClinic) => void clinic.client.press('Not today', 'No time'),
    train: (clinic: JoinedClinic) => void clinic.train(),
    'leave all sets out': (clinic: JoinedClinic) => {
      clinic.begin()
      while (clinic.asks === 'session.set') clinic.client.press('Leave this set out')
    },
    'pain of 6': (clinic: JoinedClinic) => void clinic.begin(6).client.press('None of these'),
    'a red flag': (clinic: JoinedClinic) => void clinic.client.write('half my face is drooping'),
    'block the chat': (clinic: JoinedClinic) => void clinic.client.block(),
  } satisfies Record<string, (clinic: JoinedClinic) => void>

  it.each<readonly [string, readonly (keyof typeof moves)[], number, number]>([
    ['a reminder that nobody followed is a miss', ['remind'], 1, 0],
    ['a reminder that was put off counts once', ['remind', 'later', 'tuesday noon'], 1, 0],
    ['a session at the reminder is done', ['remind', 'train'], 1, 1],
    ['a session before the reminder counts once', ['train', 'monday 20:00'], 1, 1],
    ['a session on a day without one is done, and not asked for', ['machine off until tuesday', 'train'], 0, 1],
    ['a session on the day after makes up for the one that was missed', ['tuesday noon', 'train'], 1, 1],
    ['a week with one session of three', ['remind', 'train', 'sunday noon'], 3, 1],
    ['"not today" is a miss', ['remind', 'no time'], 1, 0],
    ['leaving every set out is a miss', ['remind', 'leave all sets out'], 1, 0],
    ['leaving every set out before the reminder is a miss', ['leave all sets out'], 1, 0],
    ['pain that forbids training is a rest', ['remind', 'pain of 6'], 0, 0],
    ['a lock before the reminder is a rest', ['a red flag', 'tuesday noon'], 0, 0],
    ['a lock after the reminder is a rest', ['remind', 'a red flag'], 0, 0],
    ['a lock in the safety check is a rest', ['remind', 'ready', 'a red flag'], 0, 0],
    ['a lock after a session leaves it done', ['remind', 'train', 'a red flag'], 1, 1],
    ['a day on which nobody was there to remind is no miss', ['machine off until tuesday'], 0, 0],
    ['a client who cannot be reached has missed what was asked for', ['block the chat', 'thursday noon'], 2, 0],
  ])('%s', (_, steps, prescribed, done) => {
    const clinic = new JoinedClinic()
    for (const step of steps) moves[step](clinic)
    const counted = week(clinic) ?? emptyWeek('none')
    expect({ prescribed: counted.prescribed, done: counted.done }).toEqual({ prescribed, done })
  })

  it('is nothing before the reminder', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T17:59:00Z')
    expect(clinic.chart().training.weeks).toEqual([])
  })

  it('is nothing while a direction is stopped until the therapist answers', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo(monday)
    clinic.train()
    const { extension } = clinic.chart().states
    if (!extension) throw new Error('nothing was trained')
    clinic.rig.moveTo('2026-01-06T12:00:00Z')
    clinic.rig.store({ ...clinic.chart(), states: { extension: { ...extension, isHeld: true } } })
    clinic.rig.moveTo('2026-01-11T12:00:00Z')
    expect(week(clinic)).toMatchObject({ prescribed: 1, done: 1 })
  })

  it('is nothing while no therapist has reviewed for six weeks', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-02-15T12:00:00Z')
    const before = week(clinic)
    clinic.rig.moveTo('2026-03-01T12:00:00Z')
    expect(before).toMatchObject({ week: '2026-W07', prescribed: 3, done: 0 })
    expect(week(clinic)).toEqual(before)
  })
})
