import { once } from 'node:events'
import type { Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { ChannelError } from '#src/ports/channel.ts'

/** Listens and resolves with the port, or rejects with a {@link ChannelError} that says what to change. */
export async function listen(server: Server, host: string, port: number): Promise<number> {
  try {
    server.listen({ host, port, exclusive: true })
    await once(server, 'listening')
  } catch (cause) {
    const code = (cause as NodeJS.ErrnoException).code ?? 'unknown'
    const mend = mends[code] ?? `it could not listen (${code}); set HOST and PORT to others`
    throw new ChannelError(`browser-${code.toLowerCase()}`, `the browser chat on ${host}, port ${port}: ${mend}`, { cause })
  }
  return (server.address() as AddressInfo).port
}

const mends: Readonly<Record<string, string>> = {
  EADDRINUSE: 'the port is in use; stop what uses it, or set PORT to another',
  EACCES: 'this user may not use that port; set PORT to one above 1023',
  EADDRNOTAVAIL: 'this machine does not have that address; set HOST to one of its own',
  ENOTFOUND: 'that name is not known; set HOST to an address of this machine',
}
