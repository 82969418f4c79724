import { once } from 'node:events'
import type { Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { ChannelError } from '#src/ports/channel.ts'

export interface ListenOptions {
  readonly host: string
  /** 0 takes any free port. */
  readonly port: number
  /** Before the code of an error, e.g. `browser`. */
  readonly code: string
  /** What listens, as an error names it, e.g. `the browser chat`. */
  readonly what: string
}

/** Listens and resolves with the port, or rejects with a {@link ChannelError} that says what to change. */
export async function listen(server: Server, { host, port, code, what }: ListenOptions): Promise<number> {
  try {
    server.listen({ host, port, exclusive: true })
    await once(server, 'listening')
  } catch (cause) {
    const named = (cause as NodeJS.ErrnoException).code ?? 'unknown'
    const mend = mends[named] ?? `it could not listen (${named}); set HOST and PORT to others`
    throw new ChannelError(`${code}-${named.toLowerCase()}`, `${what} on ${host}, port ${port}: ${mend}`, { cause })
  }
  return (server.address() as AddressInfo).port
}

const mends: Readonly<Record<string, string>> = {
  EADDRINUSE: 'the port is in use; stop what uses it, or set PORT to another',
  EACCES: 'this user may not use that port; set PORT to one above 1023',
  EADDRNOTAVAIL: 'this machine does not have that address; set HOST to one of its own',
  ENOTFOUND: 'that name is not known; set HOST to an address of this machine',
}
