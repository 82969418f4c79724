// What is told, and never locks, only once it has gone on for long: no nightly search finds it, the answers do.
import { describe, expect, it } from 'vitest'
import { JoinedClinic, type Opening } from '#tests/support/joined-clinic.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'

const days = ['05', '07', '09', '12', '14', '16', '19', '21', '23', '26', '28', '30']
/** Mondays, Wednesdays and Fridays from the first session on. */
const sessions = [...days.map((day) => `2026-01-${day}`), ...['02', '04', '06', '09', '11', '13', '16', '18', '20', '23'].map((day) => `2026-02-${day}`)]

function told(clinic: JoinedClinic, text: string): readonly string[] {
  return clinic.entries('alert').filter(({ data }) => String(data.text).includes(text)).map(({ at, data }) => `${new Date(at).toISOString().slice(0, 10)} ${String(data.level)}: ${String(data.text)}`)
}

/** A session a day, with this pain before it; sets are clean unless said otherwise. */
function train(clinic: JoinedClinic, dates: readonly string[], painNow: (index: number) => number, reserve = 3): JoinedClinic {
  dates.forEach((date, index) => {
    clinic.rig.moveTo(`${date}T18:00:00Z`)
    // Whatever the week asked is not what this is about.
    clinic.begin(painNow(index))
    while (clinic.asks === 'session.set') clinic.doSet({ pain: 1, reserve })
  })
  return clinic
}

describe('soreness', () => {
  // Usual pain is 1.
  it('above the usual at every answer is told on the first one past day seven, once', () => {
    const clinic = train(new JoinedClinic(), sessions.slice(0, 6), () => 2)
    expect(told(clinic, 'Pain at rest')).toEqual([
      '2026-01-14 routine: Pain at rest above the usual (1) at every answer for 9 days; now 2. Sore beyond a week: please look.',
    ])
    expect(clinic.chart().lock).toBeNull()
  })

  it('on day seven itself is not told', () => {
    const clinic = train(new JoinedClinic(), ['2026-01-05', '2026-01-12'], () => 2)
    expect(told(clinic, 'Pain at rest')).toEqual([])
    expect(clinic.chart().watch?.soreness).toEqual({ since: '2026-01-05', isTold: false })
  })

  it('begins anew after an answer at the usual', () => {
    const clinic = train(new JoinedClinic(), sessions.slice(0, 6), (index) => (index === 2 ? 1 : 2))
    expect(told(clinic, 'Pain at rest')).toEqual([])
    expect(clinic.chart().watch?.soreness).toEqual({ since: '2026-01-12', isTold: false })
  })

  it('is ended by a morning as well', () => {
    const clinic = train(new JoinedClinic(), ['2026-01-05', '2026-01-07'], () => 2)
    clinic.rig.moveTo('2026-01-08T08:00:00Z')
    clinic.client.write('1')
    expect(clinic.chart().watch?.soreness).toBeNull()
  })
})

/** The review has fallen due within the last day. */
function isReviewAsked({ maren, rig }: JoinedClinic): boolean {
  return maren.messages.some(({ at, buttons }) => rig.now - at < 24 * 3_600_000 && buttons.some(({ label }) => label === 'Reviewed, go on'))
}

describe('no step up', () => {
  const title = 'No step up for'

  /** Seven weeks with good mornings, reviewed in time: only what is left in reserve decides. */
  function sevenWeeks(reserve: number, opening: Opening = {}): JoinedClinic {
    const clinic = new JoinedClinic(opening)
    for (const date of sessions) {
      train(clinic, [date], () => 1, reserve)
      clinic.rig.moveTo(`${date}T23:59:00Z`)
      clinic.rig.pass({ hours: 8, minutes: 2 })
      if (clinic.asks === 'morning.pain') clinic.client.write('1')
      if (isReviewAsked(clinic)) clinic.maren.press('Reviewed, go on')
    }
    return clinic
  }

  it('for six weeks of sessions is told when a session closes', () => {
    expect(told(sevenWeeks(1), title)).toEqual([
      '2026-02-16 routine: No step up for 42 days, in sessions that were done: please review what holds it back.',
    ])
  })

  it('is not told of somebody who climbs', () => {
    const clinic = sevenWeeks(3)
    expect(told(clinic, title)).toEqual([])
    expect(clinic.chart().watch?.stepUp?.highest.extension?.rung).toBeGreaterThanOrEqual(2)
    expect(clinic.chart().watch?.stepUp?.since).not.toBe('2026-01-05')
  })

  it('is not told where the protocol holds the dose on purpose', () => {
    expect(told(sevenWeeks(1, { plan: { ...extensionPlan, protocol: 'maintenance-after-discharge' } }), title)).toEqual([])
  })
})

describe('two weeks without a session', () => {
  it('are told, and lock nothing', () => {
    const clinic = train(new JoinedClinic(), ['2026-01-05'], () => 1)
    clinic.rig.moveTo('2026-01-19T17:00:00Z')
    expect(told(clinic, 'No session for')).toEqual([])
    clinic.rig.moveTo('2026-01-19T19:00:00Z')
    expect(told(clinic, 'No session for')).toEqual(['2026-01-19 routine: No session for 14 days.'])
    expect(clinic.chart().lock).toBeNull()
  })
})
