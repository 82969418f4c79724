// While no network is heard nobody is taken for silent; alerts go on, as long as they may still arrive somewhere.
import { describe, expect, it } from 'vitest'
import { chartId, colleagues, inFirstSet, type JoinedClinic } from '#tests/support/joined-clinic.ts'

const minuteMs = 60_000

/** Until then no network is heard, whatever falls due. */
function passDeaf(clinic: JoinedClinic, minutes: number): void {
  const until = clinic.rig.now + minutes * minuteMs
  for (let due = nextDue(clinic); due <= until; due = nextDue(clinic)) {
    clinic.rig.now = Math.max(clinic.rig.now, due)
    clinic.rig.submit(chartId, { kind: 'wake', isDeaf: true })
  }
  clinic.rig.now = until
}

function nextDue(clinic: JoinedClinic): number {
  return Math.min(...clinic.chart().timers.map(({ dueAt }) => dueAt))
}

/** The network is heard again after so many minutes. */
function hearAgain(clinic: JoinedClinic, minutes: number, unsent: readonly NonNullable<ReturnType<JoinedClinic['chart']>['prompt']>['effect'][] = []): void {
  const until = clinic.rig.now
  clinic.rig.submit(chartId, { kind: 'unheard', since: until - minutes * minuteMs, until, lost: 'presses', unsent })
}

function texts(clinic: JoinedClinic): readonly string[] {
  const read = clinic.client.read()
  return read === '' ? [] : read.split('\n---\n')
}

describe('a client in a set while no network is heard', () => {
  it('is not asked whether all is well, nor is the session paused', () => {
    const clinic = inFirstSet()
    passDeaf(clinic, 60)
    expect(texts(clinic)).toEqual([])
    expect(clinic.entries('session-paused')).toEqual([])
    expect(clinic.chart().prompt?.number).toBe(clinic.chart().promptsAsked)
  })

  it('keeps the question that an answer under way belongs to', () => {
    const clinic = inFirstSet()
    const button = clinic.client.button('Done')
    passDeaf(clinic, 60)
    expect(button.data).toBe(`p:${clinic.chart().prompt?.number}:done`)
  })

  // As without a silence: 60 s of rest and 45 s for the set, then five minutes.
  it.each([['was asked again', false], ['was still on its way', true]])('has the whole time for a question that %s', (_how, isOnItsWay) => {
    const clinic = inFirstSet()
    passDeaf(clinic, 60)
    hearAgain(clinic, 60, isOnItsWay ? [clinic.chart().prompt!.effect] : [])
    const asked = texts(clinic).length
    clinic.rig.pass({ minutes: 6, seconds: 44 })
    const before = texts(clinic)
    clinic.rig.pass({ seconds: 1 })

    expect(asked).toBe(isOnItsWay ? 0 : 1)
    expect(before).toEqual([])
    expect(texts(clinic).map((text) => text.split('\n')[0])).toEqual(['Are you all right? I have not heard from you.'])
  })
})

describe('an emergency while no network is heard', () => {
  it('does not ask again whether help was called, and asks once when there is somebody to hear', () => {
    const clinic = inFirstSet()
    clinic.client.write('I cannot feel my legs').skip()
    passDeaf(clinic, 60)
    const meanwhile = texts(clinic)
    clinic.rig.pass({ minutes: 5 })

    expect(meanwhile).toEqual([])
    expect(texts(clinic)).toHaveLength(1)
    expect(clinic.asks).toBe('called.called')
  })

  it('goes on being sent to the therapists, who may be reached all the same', () => {
    const clinic = inFirstSet()
    clinic.client.write('I cannot feel my legs')
    passDeaf(clinic, 30)
    expect(clinic.entries('alert-sent-again')).toHaveLength(3)
  })

  it('is sent no more often where it has arrived at nobody, and again once the network is heard', () => {
    const clinic = inFirstSet()
    clinic.client.write('I cannot feel my legs')
    const [alert] = clinic.chart().alerts
    for (const { desk } of Object.values(colleagues)) clinic.rig.tell(chartId, { kind: 'unseen', alert: alert!.id, desk, reason: 'delayed' })
    passDeaf(clinic, 60)
    const meanwhile = clinic.entries('alert-sent-again').length
    clinic.rig.pass({ minutes: 5 })

    expect(clinic.chart().alerts[0]?.hasReachedNobody).toBe(true)
    expect(meanwhile).toBe(0)
    expect(clinic.entries('alert-sent-again')).toHaveLength(1)
  })
})

describe('a clinic that was off past both times for asking whether help was called', () => {
  it('asks once', () => {
    const clinic = inFirstSet()
    clinic.client.write('I cannot feel my legs').skip()
    clinic.rig.sleepUntil('2026-01-05T18:40:00Z')
    expect(texts(clinic)).toHaveLength(1)
  })
})
