import { expect, it } from 'vitest'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import { openBench } from '#tests/support/delivery-bench.ts'
import { contact, documentId, inbound, send, type Respond } from '#tests/support/diary-handler.ts'
import { diskError } from '#tests/support/fragile-disk.ts'
import { later } from '#tests/support/scripted-channel.ts'

/** Everything that goes wrong at once, with a secret in every place where one could be. */
const respond: Respond = (event, _diary, at) => {
  if (event.kind === 'told') return { contacts: [contact('secret-address')] }
  if (event.kind === 'woken') throw new RangeError('secret-text')
  if (event.kind !== 'said') return {}
  if (event.text === 'secret-text throw') throw new RangeError(`secret-text of ${event.from.address}`)
  const words = ['refused', 'throw', 'lapse', 'later']
  const effects = words.map((word) => send(event, 'secret-address', `secret-text ${word}`, 'reminder'))
  return { timers: [at + 1000], effects: [...effects, send(event, 'secret-address', 'secret-text', 'alert', 'other')] }
}

it('nothing that is logged or reported holds a text, an address, a token or a network’s event id', async () => {
  const bench = await openBench({ respond })
  bench.channel.answer = ({ text }) => {
    if (text.endsWith('throw')) throw Object.assign(new Error('secret-token'), { code: 'ECONNRESET' })
    return text.endsWith('refused') ? { kind: 'refused', code: '400' } : later(3_600_000)
  }
  const seed = { kind: 'told', id: brandAs<EventId>('seed'), from: documentId('x'), told: 'y' } as const
  await bench.delivery.submit(documentId('chart-7'), seed)
  await bench.delivery.receive(inbound('secret-id-1', 'secret-address', 'secret-text throw'))
  let failures = 1
  bench.disk.beforePut = () => {
    if (failures-- > 0) throw diskError('EIO')
  }
  await bench.delivery.receive(inbound('secret-id-2', 'secret-address', 'secret-text'))
  await bench.clock.advance(6 * 3_600_000)
  const events = new Set(bench.log.events())
  expect([...events].toSorted()).toEqual([
    'channel-missing',
    'channel-threw',
    'event-parked',
    'send-lapsed',
    'send-refused',
    'store-failed',
    'timer-stuck',
  ])
  expect(JSON.stringify(bench.log.lines)).not.toContain('secret')
  expect(bench.parked.map(({ errorName }) => errorName)).toEqual(['RangeError', 'RangeError'])
})
