// What follows when a network was not heard for longer than it keeps what people send: 150 s for presses, 24 h for messages
// (github.com/tdlib/telegram-bot-api).
import { describe, expect, it, onTestFinished } from 'vitest'
import type { Event } from '#src/chart/event.ts'
import { createHearing, type Hearing } from '#src/commands/start/hearing.ts'
import type { Unsent } from '#src/delivery/delivery.ts'
import { brandAs, type DocumentId, type Instant } from '#src/domain/identifier.ts'
import { StoreError, type Head } from '#src/ports/store.ts'
import { flush, ManualClock } from '#tests/support/manual-clock.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { makeHead, makeSend } from '#tests/support/store-samples.ts'

const start: Instant = Date.UTC(2027, 2, 1, 9)
const secondMs = 1000
const hourMs = 3_600_000

/** Not taken by the network yet. */
const owedQuestion = makeSend('How much pain?')

interface Asked {
  readonly document: DocumentId
  readonly event: Event
}

function openHearing(lastHeardAt: Instant | null, clock = new ManualClock(start)) {
  const asked: Asked[] = []
  const triedAgain: { readonly channel: string; readonly at: Instant }[] = []
  const log = new RecordingLog()
  const failing: { isStoreAway: boolean; unsent: readonly Unsent[] } = { isStoreAway: false, unsent: [] }
  const heads: readonly Head[] = ['desk-1', 'chart-1', 'chart-2'].map((id) => makeHead(brandAs<DocumentId>(id), {}))
  const hearing = createHearing({
    channel: 'net',
    lastHeardAt,
    clock,
    wait: clock.wait,
    log,
    store: {
      heads: async (kind) => heads.filter(({ id }) => kind === undefined || id.startsWith(kind)),
      owed: async (document) => (document === 'chart-1' ? [{ document, effect: owedQuestion, attempts: 3 }] : []),
    },
    delivery: {
      submit: async (document, event) => {
        if (failing.isStoreAway) throw new StoreError('full', 'The disk is full.')
        asked.push({ document, event })
      },
      tryAgain: (channel) => {
        triedAgain.push({ channel, at: clock.now() })
        return failing.unsent
      },
    },
  })
  onTestFinished(() => hearing.stop())
  return { hearing, asked, triedAgain, log, clock, failing }
}

/** A poll is answered and what it brought is handled. */
async function hear(hearing: Hearing): Promise<void> {
  hearing.heard()
  hearing.caughtUp()
  await flush()
}

const questionOf = (document: string, since: Instant, until: Instant, lost: string) => ({
  document,
  event: { id: `unheard:${document}:${since}`, kind: 'unheard', since, until, lost, unsent: document === 'chart-1' ? [owedQuestion.id] : [] },
})

describe('a network that was not heard', () => {
  it('for 150 s costs nothing', async () => {
    const { hearing, asked, log } = openHearing(start - 150 * secondMs)
    await hear(hearing)
    expect({ asked, logged: log.lines }).toEqual({ asked: [], logged: [] })
  })

  it('for longer may have lost presses: every desk and chart is told, once, when what was kept is handled', async () => {
    const since = start - 151 * secondMs
    const { hearing, asked, log } = openHearing(since)
    hearing.heard()
    await flush()
    const beforeCaughtUp = [...asked]
    await hear(hearing)
    await hear(hearing)

    expect(beforeCaughtUp).toEqual([])
    expect(asked).toEqual(['desk-1', 'chart-1', 'chart-2'].map((document) => questionOf(document, since, start, 'presses')))
    expect(log.lines).toEqual([{ level: 'warn', event: 'presses-may-be-lost', fields: { channel: 'net', minutes: 2 } }])
  })

  it('for 24 h may have lost everything: the operator is warned', async () => {
    const since = start - 24 * hourMs
    const { hearing, asked, log } = openHearing(since)
    await hear(hearing)

    expect(asked.map(({ event }) => event)).toEqual(['desk-1', 'chart-1', 'chart-2'].map((document) => questionOf(document, since, start, 'everything').event))
    expect(log.lines).toEqual([
      { level: 'error', event: 'unheard-for-a-day', fields: { channel: 'net', hours: 24 } },
      { level: 'error', event: 'everything-may-be-lost', fields: { channel: 'net', minutes: 1440 } },
    ])
  })

  it('while the process runs is noticed as well, and the operator is warned after a day, once', async () => {
    const { hearing, asked, log, clock } = openHearing(null)
    await hear(hearing)
    await clock.advance(23 * hourMs)
    const within = [...log.lines]
    await clock.advance(50 * hourMs)
    const while_ = log.events()
    await hear(hearing)

    expect(within).toEqual([])
    expect(while_).toEqual(['unheard-for-a-day'])
    expect(asked).toHaveLength(3)
    expect(asked[0]).toEqual(questionOf('desk-1', start, start + 73 * hourMs, 'everything'))
  })

  it('before anybody had ever heard it costs nothing', async () => {
    const { hearing, asked } = openHearing(null)
    await hear(hearing)
    expect(asked).toEqual([])
  })

  it('has not ended for the next process while somebody is still to be told, and asks nobody under another name', async () => {
    const since = start - hourMs
    const { hearing, asked, failing, log, clock } = openHearing(since)
    failing.isStoreAway = true
    await hear(hearing)
    const left = hearing.at()
    const next = openHearing(left, clock)
    await hear(next.hearing)
    failing.isStoreAway = false
    await hear(hearing)

    expect(left).toBe(since)
    expect(log.lines.at(1)).toEqual({ level: 'warn', event: 'unheard-not-told', fields: { channel: 'net', code: 'full' } })
    expect(next.asked.map(({ event }) => event.id)).toEqual(asked.map(({ event }) => event.id))
    expect(asked).toHaveLength(3)
    expect(hearing.at()).toBe(start)
  })
})

describe('a network that is not heard just now', () => {
  it('is one that has been silent for longer than any poll is open', async () => {
    const { hearing, clock } = openHearing(start)
    const atOnce = hearing.isDeaf()
    await clock.advance(90 * secondMs)
    const justNot = hearing.isDeaf()
    await clock.advance(1)
    const then = hearing.isDeaf()
    await hear(hearing)
    expect([atOnce, justNot, then, hearing.isDeaf()]).toEqual([false, false, true, false])
  })

  it('counts as such until what it had kept is handled and everybody is told', async () => {
    const { hearing, clock } = openHearing(start)
    await clock.advance(151 * secondMs)
    hearing.heard()
    const before = hearing.isDeaf()
    hearing.caughtUp()
    await flush()
    expect([before, hearing.isDeaf()]).toEqual([true, false])
  })

  it('is sent what it has not taken as soon as it is heard again, and only then', async () => {
    const { hearing, triedAgain, clock } = openHearing(start)
    await clock.advance(30 * secondMs)
    await hear(hearing)
    await clock.advance(91 * secondMs)
    await hear(hearing)
    await hear(hearing)
    expect(triedAgain).toEqual([{ channel: 'net', at: start + 121 * secondMs }])
  })

  it('had not taken these questions: they go out now, and nobody has an answer to them that could be lost', async () => {
    const { hearing, asked, clock, failing } = openHearing(start)
    const waiting = makeSend('Did it hurt?').id
    failing.unsent = [{ document: brandAs<DocumentId>('chart-2'), effect: waiting }]
    await clock.advance(151 * secondMs)
    await hear(hearing)
    const unsent = asked.map(({ document, event }) => [document, 'unsent' in event ? event.unsent : null])
    expect(unsent).toEqual([['desk-1', []], ['chart-1', [owedQuestion.id]], ['chart-2', [waiting]]])
  })
})
