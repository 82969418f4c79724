import { brandAs, type EventId } from '#src/domain/identifier.ts'
import type { Inbound, Receive } from '#src/ports/channel.ts'
import type { Log } from '#src/ports/log.ts'
import type { ChatHistory } from './chat-history.ts'
import type { FrameOf, RefusalCode } from './frame.ts'
import type { ItemDraft } from './item.ts'

export const channelName = 'browser'

export type SentFrame = FrameOf<'say' | 'press' | 'join'>

export interface Inbox {
  /** Resolves with null once the event is committed or parked, else with why not. */
  take(frame: SentFrame): Promise<RefusalCode | null>
  /** Resolves when no event is under way. */
  settled(): Promise<void>
}

interface InboxOptions {
  readonly history: ChatHistory
  readonly receive: Receive
  readonly stamp: () => Promise<string | null>
  readonly log: Log
}

/** Takes what pages send: each id once, however often it comes, also while the first is under way or after a restart. */
export function createInbox({ history, receive, stamp, log }: InboxOptions): Inbox {
  const running = new Map<EventId, Promise<RefusalCode | null>>()

  async function deliver(frame: SentFrame, inbound: Inbound): Promise<RefusalCode | null> {
    const item = history.add(frame.from, drafts(history, await stamp())[frame.kind](frame as never))
    if (item === null || item.kind === 'message') return 'full'
    if (item.isTaken) return null
    try {
      await receive(inbound)
    } catch (error) {
      log.warn('browser-not-taken', { error: error instanceof Error ? error.name : typeof error })
      return 'unavailable'
    }
    history.markTaken(frame.from, frame.id)
    return null
  }

  return {
    take(frame) {
      const inbound = inboundOf(frame)
      const present = running.get(inbound.id)
      if (present !== undefined) return present
      const delivery = deliver(frame, inbound).finally(() => running.delete(inbound.id))
      running.set(inbound.id, delivery)
      return delivery
    },
    async settled() {
      while (running.size > 0) await Promise.allSettled(running.values())
    },
  }
}

type Drafts = { readonly [Kind in SentFrame['kind']]: (frame: FrameOf<Kind>) => ItemDraft }

function drafts(history: ChatHistory, stamp: string | null): Drafts {
  return {
    say: ({ id, text }) => ({ kind: 'said', id, stamp, text, isTaken: false }),
    press: ({ id, from, of, data }) => {
      return { kind: 'pressed', id, stamp, label: labelOf(history, from, of, data), isTaken: false }
    },
    // The token opens somebody's enrolment: it is not kept.
    join: ({ id }) => ({ kind: 'joined', id, stamp, isTaken: false }),
  }
}

const inbounds: { readonly [Kind in SentFrame['kind']]: (frame: FrameOf<Kind>) => (place: InboundPlace) => Inbound } = {
  say: ({ text }) => (place) => ({ kind: 'message', ...place, text }),
  press: ({ data }) => (place) => ({ kind: 'press', ...place, data }),
  join: ({ token }) => (place) => ({ kind: 'join', ...place, token }),
}

type InboundPlace = Pick<Inbound, 'id' | 'from'>

function inboundOf(frame: SentFrame): Inbound {
  return inbounds[frame.kind](frame as never)({
    id: brandAs<EventId>(`${channelName}:${frame.from}:${frame.id}`),
    from: { channel: channelName, address: frame.from },
  })
}

/** A press outlives its message: what is no longer kept is shown by a dash, and still counts. */
function labelOf(history: ChatHistory, address: string, of: string, data: string): string {
  const message = history.find(address, of)
  if (message?.kind !== 'message') return '–'
  return message.buttons.flat().find((button) => button.data === data)?.label ?? '–'
}
