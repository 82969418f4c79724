import { createHmac } from 'node:crypto'
import { BlockList, isIP } from 'node:net'
import { networkInterfaces } from 'node:os'
import { ChannelError } from '#src/ports/channel.ts'
import { isSameSecret } from '../is-same-secret.ts'

/** Our choice: long enough that guessing it over a network is hopeless without counting attempts. */
const shortestSecret = 16
const cookieName = 'nuchal-browser'

const loopback = new BlockList()
loopback.addSubnet('127.0.0.0', 8, 'ipv4')
loopback.addAddress('::1', 'ipv6')

/** Who may open the page and its socket. */
export interface Access {
  /** The address served, e.g. `http://127.0.0.1:3000`. */
  readonly address: string
  /**
   * A page of another site may point a name of its own at this machine (DNS rebinding); what arrives then still
   * carries that name, so only names we know, or numeric addresses, are let in.
   */
  isHostAllowed(host: string | undefined): boolean
  /** Browsers name the page that opens a socket: it must be one of ours, under the very name it was asked by. */
  isOriginAllowed(origin: string | undefined, host: string | undefined): boolean
  isLoggedIn(cookies: string | undefined): boolean
  /** The cookie for whoever knows the secret, else null. */
  logIn(secret: string): string | null
}

/** Throws before anything listens where others on the network could open the chat without a secret. */
export function checkBinding(host: string, secret: string | null): void {
  if (secret !== null && secret.length < shortestSecret) {
    const mend = `give it at least ${shortestSecret} characters, or none and a loopback address`
    throw new ChannelError('browser-secret-short', `the browser chat's access secret is too short: ${mend}`)
  }
  if (secret === null && !isLoopback(host)) {
    const mend = 'set an access secret, or HOST to 127.0.0.1'
    throw new ChannelError('browser-open', `the browser chat on ${host} would be open to the network: ${mend}`)
  }
}

export function createAccess(host: string, port: number, secret: string | null): Access {
  const ownHosts = new Set<string | null>([hostOf(`${bracket(host)}:${port}`)])
  if (isLoopback(host)) for (const name of ['127.0.0.1', 'localhost', '[::1]']) ownHosts.add(hostOf(`${name}:${port}`))
  const token = secret === null ? null : createHmac('sha256', secret).update('browser page').digest('base64url')

  function isHostAllowed(header: string | undefined): boolean {
    const name = hostOf(header)
    if (name === null) return false
    // Any port: the one that listens here may be reached through another, e.g. out of a container.
    return ownHosts.has(name) || (isWildcard(host) && isNumeric(name))
  }

  return {
    address: new URL(`http://${bracket(isWildcard(host) ? reachableAddress() : host)}:${port}`).origin,
    isHostAllowed,
    isOriginAllowed: (origin, header) => isHostAllowed(header) && origin === `http://${hostOf(header)}`,
    isLoggedIn: (cookies) => token === null || isSameSecret(readCookie(cookies), token),
    logIn: (given) =>
      secret !== null && isSameSecret(given, secret) ? `${cookieName}=${token}; Path=/; HttpOnly; SameSite=Strict` : null,
  }
}

export function isLoopback(host: string): boolean {
  const family = isIP(host)
  if (family === 0) return host === 'localhost'
  return loopback.check(host, family === 6 ? 'ipv6' : 'ipv4')
}

function isWildcard(host: string): boolean {
  return host === '0.0.0.0' || host === '::'
}

function bracket(host: string): string {
  return isIP(host) === 6 ? `[${host}]` : host
}

/** A host header as a browser would write it, without the port that http implies; null if it is none. */
function hostOf(header: string | undefined): string | null {
  if (header === undefined || !/^[A-Za-z0-9.:[\]-]+$/.test(header)) return null
  return URL.canParse(`http://${header}`) ? new URL(`http://${header}`).host : null
}

/** No foreign site can make these names point at us. */
function isNumeric(host: string): boolean {
  const name = new URL(`http://${host}`).hostname
  return name === 'localhost' || isIP(name.replace(/^\[|\]$/g, '')) !== 0
}

/** On a wildcard address: one by which another device may reach this machine. */
function reachableAddress(): string {
  const candidates = Object.values(networkInterfaces()).flatMap((list) => list ?? [])
  return candidates.find((one) => one.family === 'IPv4' && !one.internal)?.address ?? '127.0.0.1'
}

function readCookie(header: string | undefined): string | null {
  const pairs = (header ?? '').split(';').map((pair) => pair.trim().split('='))
  return pairs.find(([name]) => name === cookieName)?.[1] ?? null
}
