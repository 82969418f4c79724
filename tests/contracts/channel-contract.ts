import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Contact } from '#src/domain/message.ts'
import type { Channel, Inbound, Receive } from '#src/ports/channel.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { Gate } from '#tests/support/gate.ts'

/** A channel under test and the network behind it. */
export interface ChannelUnderTest {
  readonly channel: Channel
  /** A person whom the channel can reach. */
  readonly person: Contact
  /** A name that nobody on this network can have. */
  readonly badAddress: string
  start(receive: Receive): Promise<void>
  /** What the person does on the network; resolves when the network has it. */
  write(text: string): Promise<void>
  join(token: string): Promise<void>
  press(data: string): Promise<void>
  /** Whether the network was told that everything so far has arrived. */
  isAcknowledged(): Promise<boolean>
  /** Resolves once the network was told so. */
  acknowledged(): Promise<void>
  dispose(): Promise<void>
}

const question = { text: 'Ready?', buttons: [[{ label: 'Yes', data: 'p:1:yes' }]] }
const token = 'Ab_-9'.repeat(6)

/** What every channel promises, whatever network it speaks with. */
export function describeChannel(name: string, make: () => Promise<ChannelUnderTest>): void {
  describe(`the ${name} channel`, () => {
    let under: ChannelUnderTest
    const received: Inbound[] = []
    const take: Receive = async (inbound) => void received.push(inbound)
    beforeEach(async () => {
      received.length = 0
      under = await make()
    })
    afterEach(() => under.dispose())

    it('carries its own name into every contact', async () => {
      await under.start(take)
      await under.write('Hello')
      await under.acknowledged()
      expect(under.channel.name).toBe(name)
      expect(received).toEqual([{ kind: 'message', id: expect.any(String), from: under.person, text: 'Hello' }])
    })

    it('tells the network that a message arrived only once it is received for good', async () => {
      const gate = new Gate()
      await under.start(async (inbound) => {
        received.push(inbound)
        await gate.opened
      })
      await under.write('Hello')
      await turnUntil(() => received.length === 1, 'the message is received')
      const before = await under.isAcknowledged()
      gate.open()
      await under.acknowledged()
      expect([before, received.length]).toEqual([false, 1])
    })

    it('takes back a button’s data whole, up to 64 bytes', async () => {
      await under.start(take)
      const data = 'ü'.repeat(32)
      await under.press(data)
      await under.acknowledged()
      expect(received).toEqual([{ kind: 'press', id: expect.any(String), from: under.person, data }])
    })

    it('gives out a link with the token, which comes back as a join', async () => {
      await under.start(take)
      const link = await under.channel.invitationLink(token)
      await under.join(token)
      await under.acknowledged()
      expect(link).toContain(token)
      expect(received).toEqual([{ kind: 'join', id: expect.any(String), from: under.person, token }])
    })

    it('amends what it sent under the same name', async () => {
      await under.start(take)
      const sent = await under.channel.send(under.person, question, 'reply')
      const ref = sent.kind === 'sent' ? sent.ref : null
      expect(sent).toEqual({ kind: 'sent', ref: expect.any(String) })
      expect(await under.channel.amend(under.person, ref ?? '', 'Ready?\n→ Yes')).toEqual({ kind: 'sent', ref })
    })

    it('sends anew what it cannot amend', async () => {
      await under.start(take)
      const amended = await under.channel.amend(under.person, 'nothing of ours', 'Ready?\n→ Yes')
      expect(amended).toEqual({ kind: 'sent', ref: expect.any(String) })
      expect(amended).not.toMatchObject({ ref: 'nothing of ours' })
    })

    it('refuses an address that nobody can have', async () => {
      await under.start(take)
      const result = await under.channel.send({ ...under.person, address: under.badAddress }, question, 'alert')
      expect(result).toEqual({ kind: 'refused', code: 'address' })
    })

    it('goes on receiving when it is stopped and started again', async () => {
      await under.start(take)
      await under.channel.stop()
      await under.start(take)
      await under.write('Hello again')
      await under.acknowledged()
      expect(received).toHaveLength(1)
    })
  })
}
