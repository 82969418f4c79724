// Where what came in from a network goes, and what event it is there.
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import type { Inbound } from '#src/ports/channel.ts'
import type { Head } from '#src/ports/store.ts'
import { clinicId } from './clinic.ts'
import { actKinds, type ActKind, type Event, type FreshInvitation } from './event.ts'

export interface Routed {
  readonly document: DocumentId
  readonly event: Event
}

/** `head` is the desk or chart that the contact belongs to, or null. */
export function route(inbound: Inbound, head: Head | null, invitation: FreshInvitation): Routed {
  const home = head?.id ?? clinicId
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
    event: { id, kind: 'message', from, text, invitation, isEdit: isEdit === true },
  }),
  unreadable: ({ id, from }, home) => ({ document: home, event: { id, kind: 'unreadable', from } }),
  press: routePress,
  join: ({ id, from, token }, _home, head) => ({ document: clinicId, event: { id, kind: 'join', from, token, isKnown: head !== null } }),
  reach: ({ id, isReachable }, home) => ({ document: home, event: { id, kind: 'reach', isReachable } }),
  group: ({ id, from }) => ({ document: clinicId, event: { id, kind: 'group', from } }),
  moved: ({ id, from, to }, home) => ({ document: home, event: { id, kind: 'moved', from, to } }),
}

/** A therapist's press on a client's matter goes straight to that client's chart, with who pressed and what they saw. */
function routePress({ id, from, data }: Extract<Inbound, { kind: 'press' }>, home: DocumentId, head: Head | null, invitation: FreshInvitation): Routed {
  const matter = head?.kind === 'desk' ? readMatter(data) : null
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
