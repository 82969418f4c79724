import type { BrowserChannel, BrowserOptions } from '#src/channels/browser/browser-channel.ts'
import type { Contact } from '#src/domain/message.ts'
import type { Inbound } from '#src/ports/channel.ts'
import { demoPeople, plain, startClinic, therapist, type BrowserClinic } from './browser-clinic.ts'

const painRow = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, index) => ({ label: String(from + index), data: `pain:${from + index}` }))

export const painQuestion = {
  text: 'Worst pain in neck, head or arm during that set, 0 to 10?',
  buttons: [painRow(0, 5), painRow(6, 10)],
}

/**
 * The other side of the chat, as a small script: "begin" asks for the pain; a press of it closes the question;
 * "stumble" cannot be committed the first time.
 */
export function createScript() {
  let hasStumbled = false
  let question: { readonly to: Contact; readonly ref: string } | null = null

  const onMessage = async (channel: BrowserChannel, from: Contact, text: string): Promise<void> => {
    if (text === 'begin') {
      const sent = await channel.send(from, painQuestion, 'reply')
      if (sent.kind === 'sent' && sent.ref !== null) question = { to: from, ref: sent.ref }
      return
    }
    if (text === 'invite') {
      const link = await channel.invitationLink('token-1')
      const text = `Send this to your client: ${link}.\nNot this: https://elsewhere.example/?join=x`
      await channel.send(from, plain(text), 'reply')
      return
    }
    if (text === 'stumble' && !hasStumbled) {
      hasStumbled = true
      throw new Error('the store is full')
    }
    await channel.send(from, plain(`You wrote: ${text}`), 'reply')
  }

  return async function receive(inbound: Inbound, channel: BrowserChannel): Promise<void> {
    if (inbound.kind === 'message') return onMessage(channel, inbound.from, inbound.text)
    if (inbound.kind === 'join') {
      await channel.send(inbound.from, plain(`Welcome. The invitation is ${inbound.token}.`), 'reply')
      return
    }
    if (inbound.kind !== 'press' || question === null) return
    const pain = Number(inbound.data.replace('pain:', ''))
    await channel.amend(question.to, question.ref, `Worst pain: ${pain}`)
    await channel.send(inbound.from, plain('Thank you. Rest for a minute.'), 'reply')
    if (pain > 5) await channel.send(therapist, plain(`Ana Example: pain ${pain} in a set. Please acknowledge.`), 'alert')
  }
}

/** A clinic's clock of three times, moved by hand. */
export function createClock(): NonNullable<BrowserOptions['clockControl']> {
  const times = ['Mon 23 Nov 2026, 18:00', 'Tue 24 Nov 2026, 08:00', 'Wed 25 Nov 2026, 18:00']
  let index = 0
  return {
    now: async () => ({ iso: '2026-11-23T18:00:00+01:00', zone: 'Europe/Berlin', text: times[index]! }),
    choices: async () => [
      { id: 'minutes', label: '10 minutes on' },
      { id: 'morning', label: 'Next morning' },
      { id: 'session', label: 'Next session' },
    ],
    move: async () => void (index += 1),
  }
}

export async function startScripted(options: Partial<BrowserOptions> = {}): Promise<BrowserClinic> {
  return await startClinic({ clockControl: createClock(), panes: async () => demoPeople, ...options }, createScript())
}
