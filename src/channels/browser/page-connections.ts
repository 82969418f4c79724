import type { WebSocket } from 'ws'
import type { Log } from '#src/ports/log.ts'
import type { ChatHistory } from './chat-history.ts'
import type { ClinicView } from './clinic-view.ts'
import { readPageFrame, type FrameOf, type PageFrame, type PaneName, type RefusalCode, type ServerFrame } from './frame.ts'
import type { Inbox, SentFrame } from './inbox.ts'
import type { Item } from './item.ts'

/** A page that stopped reading is let go at this many unread bytes; it fetches what it missed when it comes back. */
const mostUnreadBytes = 4 * 1024 * 1024

export interface PageConnections {
  open(socket: WebSocket): void
  broadcast(frame: ServerFrame): void
  /** An item was added or changed: whoever shows that chat is told, and everybody how many messages it has. */
  tellItem(address: string, item: Item): void
  /** The whole chat was replaced. */
  tellChat(address: string): void
}

interface ConnectionOptions {
  readonly epoch: string
  readonly address: string
  readonly history: ChatHistory
  readonly inbox: Inbox
  readonly view: ClinicView
  readonly log: Log
}

interface Connection {
  readonly watched: Map<PaneName, string>
  send(frame: ServerFrame): void
}

export function createPageConnections(options: ConnectionOptions): PageConnections {
  const { history, view, log } = options
  const connections = new Set<Connection>()

  const broadcast = (frame: ServerFrame) => connections.forEach((connection) => connection.send(frame))
  const tellWatchers = (address: string, frame: ServerFrame) => {
    for (const one of connections) if ([...one.watched.values()].includes(address)) one.send(frame)
  }

  return {
    open(socket) {
      const connection: Connection = { watched: new Map(), send: (frame) => write(socket, frame) }
      connections.add(connection)
      socket.on('close', () => connections.delete(connection))
      connection.send({
        kind: 'hello',
        epoch: options.epoch,
        address: options.address,
        people: view.people(),
        marks: history.marks(),
        clock: view.clock(),
      })
      view.refresh()

      const handlers = createHandlers(connection, options)
      socket.on('message', (data, isBinary) => {
        const read = readPageFrame(isBinary ? '' : data.toString())
        if (read.kind === 'malformed') return connection.send({ kind: 'refusal', id: read.id, code: 'malformed' })
        handle(handlers, read.frame).catch((error: unknown) => {
          log.error('browser-frame-failed', { error: error instanceof Error ? error.name : typeof error })
        })
      })
    },
    broadcast,
    tellItem(address, item) {
      tellWatchers(address, { kind: 'chat', address, isWhole: false, items: [item] })
      if (item.kind === 'message') broadcast({ kind: 'mark', address, received: history.marks()[address] ?? 0 })
    },
    tellChat(address) {
      tellWatchers(address, { kind: 'chat', address, ...history.changedAfter(address, 0) })
      broadcast({ kind: 'mark', address, received: history.marks()[address] ?? 0 })
    },
  }
}

type Handlers = { readonly [Kind in PageFrame['kind']]: (frame: FrameOf<Kind>) => Promise<void> | void }

function createHandlers(connection: Connection, { history, inbox, view }: ConnectionOptions): Handlers {
  const conclude = (id: string, refusal: RefusalCode | null) => {
    connection.send(refusal === null ? { kind: 'taken', id } : { kind: 'refusal', id, code: refusal })
  }
  const takeSent = async (frame: SentFrame) => {
    conclude(frame.id, await inbox.take(frame))
    view.refresh()
  }

  return {
    watch({ pane, address, since }) {
      connection.watched.set(pane, address)
      connection.send({ kind: 'chat', address, ...history.changedAfter(address, since) })
    },
    say: takeSent,
    press: takeSent,
    join: takeSent,
    async move({ id, choice }) {
      conclude(id, await view.move(choice))
    },
    look() {
      view.refresh()
      connection.send({ kind: 'clock', clock: view.clock() })
    },
  }
}

async function handle(handlers: Handlers, frame: PageFrame): Promise<void> {
  await handlers[frame.kind](frame as never)
}

function write(socket: WebSocket, frame: ServerFrame): void {
  if (socket.bufferedAmount > mostUnreadBytes) socket.terminate()
  else if (socket.readyState === socket.OPEN) socket.send(JSON.stringify(frame))
}
