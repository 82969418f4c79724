import type { IncomingMessage } from 'node:http'
import type { Duplex } from 'node:stream'
import { WebSocketServer, type WebSocket } from 'ws'
import type { Access } from './access.ts'
import { largestFrameBytes } from './frame.ts'

/** Our choice: a demo is opened on a handful of screens. */
const mostSockets = 32
const keepAliveMs = 30_000

export interface SocketGate {
  upgrade(request: IncomingMessage, stream: Duplex, head: Buffer): void
  close(): void
}

/** Lets in sockets of our own page only; everybody else gets 403 before anything is read. */
export function createSocketGate(access: Access, opened: (socket: WebSocket) => void): SocketGate {
  const server = new WebSocketServer({ noServer: true, maxPayload: largestFrameBytes, perMessageDeflate: false })

  function isAllowed({ headers, url }: IncomingMessage): boolean {
    return (
      url === '/socket' &&
      access.isOriginAllowed(headers.origin, headers.host) &&
      access.isLoggedIn(headers.cookie) &&
      server.clients.size < mostSockets
    )
  }

  return {
    upgrade(request, stream, head) {
      // A peer that goes away while it is refused is nobody's error.
      stream.on('error', () => stream.destroy())
      if (!isAllowed(request)) {
        stream.end('HTTP/1.1 403 Forbidden\r\nConnection: close\r\nContent-Length: 0\r\n\r\n')
        return
      }
      // A phone that fell asleep never says goodbye, and would keep its place for good.
      request.socket.setKeepAlive(true, keepAliveMs)
      server.handleUpgrade(request, stream, head, (socket) => {
        // On a protocol error, an oversized frame among them, the library closes with the code of the reason.
        socket.on('error', () => undefined)
        opened(socket)
      })
    },
    close() {
      for (const socket of server.clients) socket.close(1001)
      server.close()
    },
  }
}
