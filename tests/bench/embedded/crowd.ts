// Thirty thousand messages that fall due at one instant, on a virtual clock: how they leave, and how long an alert waits.
import { telegramLimits } from '#src/channels/telegram/telegram-channel.ts'
import { createDelivery } from '#src/delivery/create-delivery.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { benchStart } from '#tests/support/delivery-bench.ts'
import { createDiaryHandler, inbound, send, type Respond } from '#tests/support/diary-handler.ts'
import { ManualClock } from '#tests/support/manual-clock.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { mostWithin, timedChannel } from '#tests/support/send-times.ts'
import { atLeast, atMost, type Figure } from '../figure.ts'

/** Issue 5, "Speed and memory". */
const mostAlertSeconds = 1
/** Our choice: of what the network takes, so that a pause for nothing would show. */
const leastOfLimit = 0.99
const people = 30_000
/** Alerts that are due with all the others, and then one in each stretch of so long. */
const alertsAtOnce = 20
const alertEveryMs = 7_130
const dueAt = benchStart + 60_000

/** Whoever writes gets a reminder at the instant at which all do; "help" is an alert at once. */
const respond: Respond = (event, diary, at) => {
  if (event.kind === 'said') return event.text.startsWith('help') ? { effects: [send(event, `t-${event.from.address}`, `alert ${at}`, 'alert')] } : { timers: [dueAt] }
  if (event.kind !== 'woken') return {}
  const isAlert = Number(diary.contacts[0]?.address.slice(1)) < alertsAtOnce
  return { timers: [], effects: [send(event, diary.contacts[0]?.address ?? '', `due ${at}`, isAlert ? 'alert' : 'reminder')] }
}

export async function measureCrowd(count = people): Promise<readonly Figure[]> {
  const clock = new ManualClock(benchStart)
  const { channel, sends } = timedChannel(clock, telegramLimits)
  const store = createMemoryStore()
  await store.open()
  const parts = { store, clock, channels: [channel], handler: createDiaryHandler(respond), log: new RecordingLog(), wait: clock.wait }
  const delivery = createDelivery({ ...parts, newSecret: () => 'fresh' })
  await delivery.start()
  for (let person = 0; person < count; person += 1) await delivery.receive(inbound(`join-${person}`, `p${person}`, 'x'))
  await clock.advance(dueAt - clock.now())
  await delivery.idle()
  for (let alerts = 0; sends.length < count + alerts && clock.now() < dueAt + count * 1000; alerts += 1) {
    await delivery.receive(inbound(`alert-${alerts}`, `a${alerts}`, 'help'))
    await clock.advance(alertEveryMs)
  }
  const crowd = sends.filter(({ text }) => text.startsWith('due'))
  const waits = sends.filter(({ urgency }) => urgency === 'alert').map(({ text, at }) => at - Number(text.split(' ')[1]))
  const seconds = ((crowd.at(-1)?.at ?? Infinity) - dueAt) / 1000
  await delivery.stop()
  return [
    atMost(`${count} messages due at once: the most within any second`, mostWithin(sends.map(({ at }) => at), 1000), telegramLimits.overall.atMost),
    atLeast(`${count} messages due at once: sent of all`, crowd.length / count, 1),
    atLeast(`${count} messages due at once: of what the network takes`, sends.length / seconds / telegramLimits.overall.atMost, leastOfLimit),
    atMost(`${count} messages due at once: seconds that one of ${waits.length} alerts waits, at most`, Math.max(...waits) / 1000, mostAlertSeconds),
  ]
}
