import { once } from 'node:events'
import { WebSocket } from 'ws'
import { createBrowserChannel, type BrowserChannel, type BrowserOptions } from '#src/channels/browser/browser-channel.ts'
import type { ServerFrame } from '#src/channels/browser/frame.ts'
import type { Contact, Message } from '#src/domain/message.ts'
import type { ChannelError, Inbound, Receive } from '#src/ports/channel.ts'

export const ana: Contact = { channel: 'browser', address: 'client-1' }
export const therapist: Contact = { channel: 'browser', address: 'therapist' }

export const demoPeople = {
  clients: [
    { address: 'client-1', name: 'Ana Example' },
    { address: 'client-2', name: 'Bo Example' },
  ],
  therapists: [
    { address: 'therapist', name: 'Thea Therapist' },
    { address: 'second', name: 'Sol Second' },
  ],
}

export function plain(text: string): Message {
  return { text, buttons: [] }
}

export interface LoggedLine {
  readonly level: 'info' | 'warn' | 'error'
  readonly event: string
  readonly fields: object
}

/** A disk in memory, as strict as a file: what is kept goes through JSON. */
export function createDisk() {
  let kept: string | null = null
  return {
    loadHistory: async () => (kept === null ? null : (JSON.parse(kept) as unknown)),
    saveHistory: async (value: unknown) => void (kept = JSON.stringify(value)),
  }
}

export interface BrowserClinic {
  readonly channel: BrowserChannel
  readonly received: Inbound[]
  readonly logged: LoggedLine[]
  readonly failures: ChannelError[]
}

/** A started channel whose other side is `receive`, and what happened at it. */
export async function startClinic(
  options: Partial<BrowserOptions> = {},
  receive: (inbound: Inbound, channel: BrowserChannel) => Promise<void> = async () => undefined,
): Promise<BrowserClinic> {
  const received: Inbound[] = []
  const logged: LoggedLine[] = []
  const failures: ChannelError[] = []
  const logTo = (level: LoggedLine['level']) => (event: string, fields: object) => void logged.push({ level, event, fields })
  const channel = createBrowserChannel({
    host: '127.0.0.1',
    port: 0,
    secret: null,
    panes: async () => demoPeople,
    clockControl: null,
    log: { info: logTo('info'), warn: logTo('warn'), error: logTo('error') },
    ...createDisk(),
    ...options,
  })
  const take: Receive = async (inbound) => {
    received.push(inbound)
    await receive(inbound, channel)
  }
  await channel.start(take, (error) => failures.push(error))
  return { channel, received, logged, failures }
}

export interface PageSocket {
  readonly socket: WebSocket
  /** Every frame so far, in order. */
  readonly frames: ServerFrame[]
  send(frame: object): void
  /** The first frame of that kind, and like `match`, that came after the last one waited for. */
  next<Kind extends ServerFrame['kind']>(
    kind: Kind,
    match?: (frame: Extract<ServerFrame, { kind: Kind }>) => boolean,
  ): Promise<Extract<ServerFrame, { kind: Kind }>>
  close(): Promise<void>
}

/** Opens a socket as the channel's own page would. */
export async function openSocket(address: string, headers: Record<string, string> = {}): Promise<PageSocket> {
  const socket = new WebSocket(`${address.replace('http', 'ws')}/socket`, { headers: { Origin: address, ...headers } })
  const frames: ServerFrame[] = []
  let read = 0
  let wake = (): void => undefined
  socket.on('message', (data) => {
    frames.push(JSON.parse(String(data)) as ServerFrame)
    wake()
  })
  await once(socket, 'open')

  return {
    socket,
    frames,
    send: (frame) => socket.send(JSON.stringify(frame)),
    async next(kind, match = () => true) {
      for (;;) {
        while (read < frames.length) {
          const frame = frames[read++]!
          if (frame.kind === kind && match(frame as never)) return frame as never
        }
        await new Promise<void>((resolve) => (wake = resolve))
      }
    },
    async close() {
      socket.close()
      if (socket.readyState !== WebSocket.CLOSED) await once(socket, 'close')
    },
  }
}

/** The status with which a socket is refused, or 101. */
export async function statusOfUpgrade(address: string, headers: Record<string, string>, path = '/socket'): Promise<number> {
  const socket = new WebSocket(`${address.replace('http', 'ws')}${path}`, { headers })
  const status = await new Promise<number>((resolve, reject) => {
    socket.on('unexpected-response', (_request, response) => resolve(response.statusCode ?? 0))
    socket.on('open', () => resolve(101))
    socket.on('error', reject)
  })
  socket.on('error', () => undefined)
  socket.terminate()
  return status
}
