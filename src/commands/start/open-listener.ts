import { createServer, type Server } from 'node:http'
import { isIPv6 } from 'node:net'
import { listen } from '#src/channels/listen.ts'
import { notFound, serveRoutes, writeAnswer } from '#src/channels/serve-routes.ts'
import { ChannelError } from '#src/ports/channel.ts'
import type { HttpRoute } from '#src/ports/http-route.ts'
import type { Log } from '#src/ports/log.ts'

export interface Listener {
  /** E.g. `http://127.0.0.1:4870`. */
  readonly address: string
  /** Answers what has been asked, for a second at most. */
  close(): Promise<void>
}

export interface ListenerOptions {
  readonly host: string
  /** 0 takes any free port. */
  readonly port: number
  readonly routes: readonly HttpRoute[]
  readonly log: Log
  readonly failed: (error: ChannelError) => void
  /** {@link requestWithinMs} by default. */
  readonly patienceMs?: number
}

/** Our choice: a request that takes longer to arrive is not waited for. */
const requestWithinMs = 30_000
/** Our choice: the network opens 40 at most unless told otherwise (core.telegram.org/bots/api#setwebhook); beyond that it is a flood. */
const mostConnections = 256
const closeWithinMs = 1_000

/** Rejects with a ChannelError that says what to change. */
export async function openListener({ host, port, routes, log, failed, patienceMs = requestWithinMs }: ListenerOptions): Promise<Listener> {
  const patience = { requestTimeout: patienceMs, headersTimeout: patienceMs, connectionsCheckingInterval: patienceMs }
  const server = createServer(patience, (request, response) => {
    // A caller that goes away is nobody's error.
    response.on('error', () => undefined)
    void serveRoutes(routes, request, response, log).then((isServed) => {
      if (!isServed) writeAnswer(request, response, notFound, 'close')
    })
  })
  server.maxConnections = mostConnections
  const taken = await listen(server, { host, port, code: 'listener', what: 'the listener' })
  server.on('error', (cause) => failed(new ChannelError('listener-lost', 'The listener stopped. Start it again.', { cause })))
  return { address: `http://${isIPv6(host) ? `[${host}]` : host}:${taken}`, close: () => close(server) }
}

async function close(server: Server): Promise<void> {
  const closed = new Promise<void>((resolve) => server.close(() => resolve()))
  server.closeIdleConnections()
  const cut = setTimeout(() => server.closeAllConnections(), closeWithinMs)
  await closed
  clearTimeout(cut)
}
