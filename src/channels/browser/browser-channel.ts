import { randomUUID } from 'node:crypto'
import { createServer, type Server } from 'node:http'
import { ChannelError, type Channel, type Receive, type SendResult } from '#src/ports/channel.ts'
import type { Message, Urgency } from '#src/domain/message.ts'
import type { HttpRoute } from '#src/ports/http-route.ts'
import type { Log } from '#src/ports/log.ts'
import { listen } from '../listen.ts'
import { serveRoutes } from '../serve-routes.ts'
import { checkBinding, createAccess } from './access.ts'
import { createChatHistory, emptyHistory, savedHistorySchema, type ChatHistory, type SavedHistory } from './chat-history.ts'
import { createClinicView, type ClinicView } from './clinic-view.ts'
import type { ClockControl } from './clock-control.ts'
import { addressPattern } from './frame.ts'
import { channelName, createInbox, type Inbox } from './inbox.ts'
import type { ItemDraft } from './item.ts'
import { createPageConnections, type PageConnections } from './page-connections.ts'
import { readPageFiles } from './page-files.ts'
import { createPageListener } from './page-listener.ts'
import type { People } from './people.ts'
import { createSingleFlight, type SingleFlight } from './single-flight.ts'
import { createSocketGate, type SocketGate } from './socket-gate.ts'

export interface BrowserOptions {
  readonly host: string
  /** 0 takes any free port. */
  readonly port: number
  /** Whoever opens the page must know it; null only on a loopback address. */
  readonly secret: string | null
  /** Who can be chosen in the two panes. */
  readonly panes: () => Promise<People>
  readonly clockControl: ClockControl | null
  readonly log: Log
  /** Other paths that are answered where the page is, each with its own rules of access. */
  readonly routes?: readonly HttpRoute[]
  /** What `saveHistory` last kept, or null or undefined. */
  readonly loadHistory: () => Promise<unknown>
  readonly saveHistory: (value: SavedHistory) => Promise<void>
}

export interface BrowserChannel extends Channel {
  /** The address of the page, known once started. */
  address(): string
  /** Drops a person's chat, e.g. when their record is erased. */
  forget(address: string): Promise<void>
}

/** What exists between start and stop. */
interface Running {
  readonly server: Server
  readonly gate: SocketGate
  readonly history: ChatHistory
  readonly saving: SingleFlight
  readonly inbox: Inbox
  readonly view: ClinicView
  readonly connections: PageConnections
  readonly address: string
  /** Tells this start's messages from those of an earlier one whose last lines were not saved. */
  readonly epoch: string
}

type Failed = Parameters<Channel['start']>[1]

/** Until it is started, and after it is stopped, sending is to be tried again. */
const notRunning: SendResult = { kind: 'later', afterMs: 1000 }

export function createBrowserChannel(options: BrowserOptions): BrowserChannel {
  let running: Running | null = null
  let sent = 0

  async function show(to: string, text: string, buttons: Message['buttons'], urgency: Urgency): Promise<SendResult> {
    const current = running
    if (current === null) return notRunning
    if (!addressPattern.test(to)) return { kind: 'refused', code: 'address' }
    const { epoch, history, view } = current
    const rows = buttons.map((row) => row.map(({ label, data }) => ({ label, data })))
    const ref = `${epoch}.${++sent}`
    const stamp = await view.stamp()
    if (running !== current) return notRunning
    const draft: ItemDraft = { kind: 'message', id: ref, stamp, text, urgency, buttons: rows, isOpen: true }
    const item = history.add(to, draft)
    view.refresh()
    return item === null ? { kind: 'refused', code: 'full' } : { kind: 'sent', ref }
  }

  return {
    name: channelName,
    async start(receive, failed) {
      checkBinding(options.host, options.secret)
      running = await open(options, receive, failed)
      options.log.info('browser-started', { port: Number(new URL(running.address).port) })
    },
    async stop() {
      if (running === null) return
      const { server, gate, inbox, view, saving } = running
      running = null
      gate.close()
      const closed = new Promise<void>((resolve) => server.close(() => resolve()))
      server.closeAllConnections()
      await inbox.settled()
      await view.settled()
      await saving.settled()
      await closed
    },
    send: (to, message, urgency) => show(to.address, message.text, message.buttons, urgency),
    async amend(to, ref, text) {
      if (running === null) return notRunning
      if (running.history.amend(to.address, ref, text) !== null) return { kind: 'sent', ref }
      // The message is no longer kept: the new text is still to be read.
      return show(to.address, text, [], 'reply')
    },
    invitationLink: async (token) => `${addressOf(running)}/?join=${encodeURIComponent(token)}`,
    address: () => addressOf(running),
    async forget(address) {
      if (running === null) return
      const { history, connections, view, saving } = running
      history.forget(address)
      connections.tellChat(address)
      view.refresh()
      saving.ask()
      await saving.settled()
    },
  }
}

function addressOf(running: Running | null): string {
  if (running === null) throw new ChannelError('browser-not-started', 'the browser chat has no address before it is started')
  return running.address
}

async function open(options: BrowserOptions, receive: Receive, failed: Failed): Promise<Running> {
  const { log } = options
  const saved = await readHistory(options)
  const files = await readPageFiles()
  const server = createServer()
  const port = await listen(server, { host: options.host, port: options.port, code: 'browser', what: 'the browser chat' })
  const access = createAccess(options.host, port, options.secret)
  const { address } = access
  const epoch = randomUUID()

  const saving = createSingleFlight(() => save(options, history))
  const history = createChatHistory(saved, (to, item) => {
    connections.tellItem(to, item)
    saving.ask()
  })
  const view = createClinicView({
    panes: options.panes,
    clockControl: options.clockControl,
    addresses: history.addresses,
    changed: (frame) => connections.broadcast(frame),
    log,
  })
  const inbox = createInbox({ history, receive, stamp: view.stamp, log })
  const connections = createPageConnections({ epoch, address, history, inbox, view, log })
  const gate = createSocketGate(access, connections.open)

  const page = createPageListener(access, files)
  server.on('request', (request, response) => {
    void serveRoutes(options.routes ?? [], request, response, log).then((isServed) => {
      if (!isServed) page(request, response)
    })
  })
  server.on('upgrade', gate.upgrade)
  server.on('error', (cause) => {
    failed(new ChannelError('browser-lost', 'the browser chat stopped; start it again', { cause }))
  })
  return { server, gate, history, saving, inbox, view, connections, address, epoch }
}

/** A damaged or newer history stops the start: an empty one would be written over it. */
async function readHistory({ loadHistory }: BrowserOptions): Promise<SavedHistory> {
  const saved = await loadHistory()
  if (saved === null || saved === undefined) return emptyHistory
  const parsed = savedHistorySchema.safeParse(saved)
  if (parsed.success) return parsed.data
  const mend = 'move its file away to begin with empty chats; no record is lost by that'
  throw new ChannelError('browser-history-damaged', `the kept browser chats cannot be read: ${mend}`)
}

/** What could not be saved is part of the next save. */
async function save({ saveHistory, log }: BrowserOptions, history: ChatHistory): Promise<void> {
  try {
    await saveHistory(history.toSaved())
  } catch (error) {
    log.warn('browser-history-not-saved', { error: error instanceof Error ? error.name : typeof error })
  }
}
