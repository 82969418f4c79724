import { afterEach } from 'vitest'
import type { BrowserChannel, BrowserOptions } from '#src/channels/browser/browser-channel.ts'
import type { Inbound } from '#src/ports/channel.ts'
import { ana, openSocket, startClinic, type BrowserClinic, type PageSocket } from './browser-clinic.ts'

export const hello = { kind: 'say', id: 'sent-0001', from: 'client-1', text: 'Hello' }

export const question = {
  text: 'Are you ready?',
  buttons: [[{ label: 'Yes', data: 'ready:yes' }, { label: 'Not now', data: 'ready:no' }]],
}

/** Starts clinics that are stopped after each test. */
export function createClinicRig() {
  let open: BrowserClinic[] = []

  afterEach(async () => {
    await Promise.all(open.map(({ channel }) => channel.stop()))
    open = []
  })

  return async function start(
    receive?: (inbound: Inbound, channel: BrowserChannel) => Promise<void>,
    options: Partial<BrowserOptions> = {},
  ): Promise<BrowserClinic> {
    const clinic = await startClinic(options, receive)
    open.push(clinic)
    return clinic
  }
}

/** Opens a socket that shows one chat. */
export async function openChat(clinic: BrowserClinic, address = ana.address): Promise<PageSocket> {
  const page = await openSocket(clinic.channel.address())
  page.send({ kind: 'watch', pane: 'client', address, since: 0 })
  await page.next('chat')
  return page
}
