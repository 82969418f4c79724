// The composition root: what runs, put together in one place.
import { randomBytes } from 'node:crypto'
import { fileURLToPath } from 'node:url'
import { flows } from '#flows/registry.ts'
import type { Clinic } from '#src/chart/clinic.ts'
import { clinicId } from '#src/chart/clinic.ts'
import { digestOf } from '#src/chart/digest.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import type { Event } from '#src/chart/event.ts'
import { createStep } from '#src/chart/step.ts'
import { createTelegramChannel, type TelegramChannel, type TelegramOptions } from '#src/channels/telegram/telegram-channel.ts'
import type { Content } from '#src/content/content.ts'
import { loadContent } from '#src/content/load-content.ts'
import { digestOfMatter, readTriageMatter } from '#src/content/triage-matter.ts'
import { readSignature } from '#src/content/triage-signature.ts'
import { createDelivery } from '#src/delivery/create-delivery.ts'
import type { Delivery } from '#src/delivery/delivery.ts'
import type { Wait } from '#src/delivery/wait.ts'
import { brandAs, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Archive } from '#src/ports/archive.ts'
import type { Channel, ChannelError } from '#src/ports/channel.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'
import type { Store } from '#src/ports/store.ts'
import { cipherFor } from '#src/stores/cipher.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { createPostgresStore } from '#src/stores/postgres/postgres-store.ts'
import { ConfigError, type Config } from './config.ts'
import { createHandler, type Product } from './handler.ts'

/** Content is found from the package, wherever the command was called. */
export const contentFolder = fileURLToPath(new URL('../content', import.meta.url))

let shipped: Content | null = null

/** What is said and prescribed, read once a process: nothing changes it while one runs. */
export function shippedContent(): Content {
  shipped ??= loadContent(contentFolder)
  return shipped
}

export const systemClock: Clock = { now: () => Date.now() }

/** Unguessable, and made of letters that every network takes in a link. */
export function newSecret(): string {
  return randomBytes(24).toString('base64url')
}

export const realWait: Wait = (ms, signal) =>
  new Promise((resolve) => {
    if (signal?.aborted === true) return resolve()
    const timer = setTimeout(done, ms)
    function done(): void {
      clearTimeout(timer)
      signal?.removeEventListener('abort', done)
      resolve()
    }
    signal?.addEventListener('abort', done, { once: true })
  })

/** Invented people only, or a clinic whose data folder may hold a signature of the triage content. */
export type Use = 'demo' | { readonly dataDir: string }

export function createProduct(use: Use, clinicLanguage: string | null = null): Product {
  const content = inLanguage(shippedContent(), clinicLanguage)
  if (use === 'demo') return productOf({ ...content, signature: { kind: 'demo' } })
  const digest = digestOfMatter(readTriageMatter(contentFolder, content))
  return productOf({ ...content, signature: readSignature(use.dataDir, digest).state })
}

/** The clinic's language is the first of the content. */
function inLanguage(content: Content, name: string | null): Content {
  if (name === null) return content
  const own = content.languages.get(name)
  if (own === undefined) throw new ConfigError([`CLINIC_LANGUAGE ${name} has no wording. Write one of: ${[...content.languages.keys()].join(', ')}.`])
  return { ...content, languages: new Map([[name, own], ...content.languages]) }
}

export function productOf(content: Content): Product {
  return { content, step: createStep(content, flows) }
}

/** The store that the environment names; still to be opened. */
export function openStore({ databaseUrl, dataDir, dataKey }: Config, log?: Log): Store & Partial<Archive> {
  const kept = { steps: documentMigrations, cipher: cipherFor(dataKey) }
  if (databaseUrl === null) return createLowdbStore({ folder: dataDir, ...kept })
  return createPostgresStore({ url: databaseUrl, ...kept, onTrouble: (event) => log?.warn(event, {}) })
}

export interface AppParts {
  readonly product: Product
  readonly store: Store
  /** Null for a command that only changes documents: what it makes them owe goes out at the next start. */
  readonly channels: readonly Channel[] | null
  readonly clock: Clock
  readonly log: Log
  /** How retries and sleeping timers wait; by default in real time, like {@link systemClock}. */
  readonly wait?: Wait
  /** An event was dropped because of our own mistake. */
  readonly onParked?: () => void
  /** By default the network is always heard. */
  readonly isDeaf?: () => boolean
}

export interface App {
  readonly delivery: Delivery<Event>
  /** Opens what is owed, then the channels; `failed` is called if one of them cannot go on. */
  start(failed: (error: ChannelError) => void): Promise<void>
  stop(): Promise<void>
}

/** Everything but the store's opening and closing, which belong to whoever made it. */
export function createApp({ product, store, channels: given, clock, log, wait = realWait, onParked: noteParked = ignore, isDeaf }: AppParts): App {
  const channels = given ?? []
  const links = new Map<string, string>()
  // Until a network has said how its links look, the bare token is given out, which can be sent after /start.
  const linkOf = (channel: string, token: string): string => links.get(channel)?.replace(placeholder, token) ?? token
  const onFailed = (document: string, errorName: string): void => log.error('step-failed', { document, error: errorName })
  const onNobodyReached = (document: string): void => log.error('nobody-reached', { document })
  const onTriedOften = (tries: number, at: Instant): void => {
    log.warn('tried-often', { tries })
    // Told once a day however often it happens, and once by however many processes.
    const id = brandAs<EventId>(`tried-often:${new Date(at).toISOString().slice(0, 10)}`)
    delivery.submit(clinicId, { id, kind: 'tried-often', tries }).catch(() => log.warn('tried-often-not-told', {}))
  }
  const handler = createHandler(product, { linkOf, onFailed, onNobodyReached, onTriedOften, ...(isDeaf === undefined ? {} : { isDeaf }) })
  const delivery = createDelivery<Event>({ store, clock, channels, handler, log, wait, newSecret, stopWithinMs, isWithoutNetworks: given === null, onParked: () => noteParked() })
  return {
    delivery,
    async start(failed) {
      await delivery.start()
      for (const channel of channels) {
        await channel.start((inbound) => delivery.receive(inbound), failed)
        links.set(channel.name, await channel.invitationLink(placeholder))
      }
    },
    async stop() {
      // A handler or a line that hangs leaves time for what is owed; what it has not finished, the network brings again.
      const over = new AbortController()
      await Promise.race([Promise.all(channels.map((channel) => channel.stop())), wait(stopWithinMs, over.signal)])
      over.abort()
      await delivery.stop()
    },
  }
}

function ignore(): void {}

/** Our choice, for receiving and then for sending: both and the store's closing stay within the ten seconds of a stop. */
const stopWithinMs = 4_500

/** Stands for the token in a network's link; of a token's own length and letters. */
const placeholder = 'T'.repeat(32)

/** `onHeard` and `onCaughtUp` are told when the network has answered, and when what it had kept is handled. */
export interface TelegramNotices extends Pick<TelegramOptions, 'onHeard' | 'onCaughtUp' | 'wait' | 'limits'> {
  /** An update was tried in vain and passed over. */
  readonly onParked?: () => void
}

export function createTelegram(config: NonNullable<Config['telegram']>, log: Log, { onParked, ...listening }: TelegramNotices = {}): TelegramChannel {
  const { token, apiRoot, webhook } = config
  return createTelegramChannel({
    token,
    apiRoot: apiRoot ?? undefined,
    webhook,
    // The update's number is the network's name for what somebody wrote; it helps in a test and has no place in a log.
    log: ({ event, updateId: _updateId, ...fields }) => log.warn(`telegram-${event}`, fields),
    onParked: (_updateId, code) => {
      log.error('telegram-update-parked', { code })
      onParked?.()
    },
    ...listening,
  })
}

/** A clinic without a therapist gets a code, which only whoever starts the process sees; null where there is one. */
export async function issueClaim(store: Store, delivery: Delivery<Event>): Promise<string | null> {
  const clinic = await store.read<Clinic>(clinicId)
  if (clinic?.isClaimed === true) return null
  const code = randomBytes(5).toString('hex').toUpperCase()
  await delivery.submit(clinicId, { id: brandAs<EventId>(`claim:${newSecret()}`), kind: 'claim-issued', digest: digestOf(code) })
  return code
}
