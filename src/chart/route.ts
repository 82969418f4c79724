// Where what came in from a network goes, and what event it is there.
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import type { Inbound } from '#src/ports/channel.ts'
import type { Head } from '#src/ports/store.ts'
import { boundData, boundText, boundToken } from './bounds.ts'
import { clinicId } from './clinic.ts'
import { actKinds, type ActKind, type Event, type FreshInvitation } from './event.ts'

export interface Routed {
  readonly document: DocumentId
  readonly event: Event
}

/**
 * Our choice: no client is so many answers behind who is in a conversation. From there on what they write is read for signs
 * and "stop" alone, so that a flood costs neither the therapist nor the other clients their turn, and the chart no room.
 */
export const mostUnsent = 30

/** `head` is the desk or chart that the contact belongs to, or null; `unsent`, how many messages to it wait for the network. */
export function route(inbound: Inbound, head: Head | null, invitation: FreshInvitation, unsent = 0): Routed {
  const home = head?.id ?? clinicId
  // Never a therapist's: what waits for them is other people's alerts, and their press may be what those wait for.
  const isExcess = head?.kind === 'chart' && unsent >= mostUnsent
  const routed = routeAs(inbound, home, head, invitation)
  return isExcess && mayBeExcess.has(routed.event.kind) ? { ...routed, event: { ...routed.event, isExcess: true } as Event } : routed
}

const mayBeExcess: ReadonlySet<Event['kind']> = new Set(['message', 'unreadable', 'press'])

function routeAs(inbound: Inbound, home: DocumentId, head: Head | null, invitation: FreshInvitation): Routed {
  return (routes[inbound.kind] as (inbound: Inbound, home: DocumentId, head: Head | null, invitation: FreshInvitation) => Routed)(
    inbound,
    home,
    head,
    invitation,
  )
}

type Route<Kind extends Inbound['kind']> = (
  inbound: Extract<Inbound, { kind: Kind }>,
  home: DocumentId,
  head: Head | null,
  invitation: FreshInvitation,
) => Routed

const routes: { readonly [Kind in Inbound['kind']]: Route<Kind> } = {
  message: ({ id, from, text, isEdit }, home, _head, invitation) => ({
    document: home,
    event: { id, kind: 'message', from, text: boundText(text), invitation, isEdit: isEdit === true },
  }),
  unreadable: ({ id, from }, home) => ({ document: home, event: { id, kind: 'unreadable', from } }),
  press: routePress,
  join: ({ id, from, token }, _home, head) => ({ document: clinicId, event: { id, kind: 'join', from, token: boundToken(token), isKnown: head !== null } }),
  reach: ({ id, isReachable }, home) => ({ document: home, event: { id, kind: 'reach', isReachable } }),
  group: ({ id, from }) => ({ document: clinicId, event: { id, kind: 'group', from } }),
  moved: ({ id, from, to }, home) => ({ document: home, event: { id, kind: 'moved', from, to } }),
}

/** A therapist's press on a client's matter goes straight to that client's chart, with who pressed and what they saw. */
function routePress(press: Extract<Inbound, { kind: 'press' }>, home: DocumentId, head: Head | null, invitation: FreshInvitation): Routed {
  const { id, from } = press
  const data = boundData(press.data)
  // Whoever has not said yet who they are acts for nobody: the record would not say who it was.
  const matter = head?.kind === 'desk' && head.name !== '' ? readMatter(data) : null
  if (!head || !matter) return { document: home, event: { id, kind: 'press', from, data, invitation } }
  const { chart, act, about, seenRevision } = matter
  return { document: chart, event: { id, kind: 'act', by: { desk: head.id, name: head.name }, act, about, seenRevision } }
}

interface Matter {
  readonly chart: DocumentId
  readonly act: ActKind
  readonly about: string
  readonly seenRevision: number
}

/** `m:<chart>:<revision>:<act>:<about>`; null where it is nothing of the kind. */
export function readMatter(data: string): Matter | null {
  const match = /^m:(chart-[0-9a-f]{12}):(\d+):([a-z]+):([a-z0-9-]*)$/.exec(data)
  const act = actKinds.find((kind) => kind === match?.[3])
  if (!match?.[1] || !act) return null
  return { chart: brandAs<DocumentId>(match[1]), act, about: match[4] ?? '', seenRevision: Number(match[2]) }
}
