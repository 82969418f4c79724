import { z } from 'zod'
import type { ClockView } from './clock-control.ts'
import type { Item } from './item.ts'
import type { People } from './people.ts'

/** Bytes of one frame; a page's longest text, 4,000 UTF-16 units, is at most 12,000 bytes of UTF-8. */
export const largestFrameBytes = 16 * 1024
export const longestText = 4000

export const addressPattern = /^[a-z0-9-]{1,40}$/
/** Names a page gives to what it sends, so that sending again is the same event. */
const sendIdPattern = /^[A-Za-z0-9-]{8,64}$/

const addressSchema = z.string().regex(addressPattern)
const sendIdSchema = z.string().regex(sendIdPattern)
const dataSchema = z.string().refine((data) => data.length > 0 && Buffer.byteLength(data) <= 64)

/** What a page may say over its socket. */
export const pageFrameSchema = z.discriminatedUnion('kind', [
  /** Shows a chat in a pane: what changed after `since`, 0 for all of it. */
  z.strictObject({
    kind: z.literal('watch'),
    pane: z.enum(['client', 'therapist']),
    address: addressSchema,
    since: z.int().min(0),
  }),
  z.strictObject({
    kind: z.literal('say'),
    id: sendIdSchema,
    from: addressSchema,
    text: z.string().max(longestText).transform(toReadable).refine((text) => text.trim() !== ''),
  }),
  z.strictObject({
    kind: z.literal('press'),
    id: sendIdSchema,
    from: addressSchema,
    of: z.string().min(1).max(80),
    data: dataSchema,
  }),
  z.strictObject({
    kind: z.literal('join'),
    id: sendIdSchema,
    from: addressSchema,
    token: z.string().regex(/^[A-Za-z0-9_-]{1,64}$/),
  }),
  z.strictObject({ kind: z.literal('move'), id: sendIdSchema, choice: z.string().min(1).max(64) }),
  /** Asks for the clock; its answer also shows that the line is alive. */
  z.strictObject({ kind: z.literal('look') }),
])

export type PageFrame = z.infer<typeof pageFrameSchema>
export type FrameOf<Kind extends PageFrame['kind']> = Extract<PageFrame, { kind: Kind }>
export type PaneName = FrameOf<'watch'>['pane']

/**
 * Why a frame was not taken. `unavailable`: send the same again; `malformed`, `full` and `unknown`: never;
 * `busy` and `failed`: the clock did not move.
 */
export type RefusalCode = 'malformed' | 'full' | 'unknown' | 'unavailable' | 'busy' | 'failed'

/** What the server says to a page. */
export type ServerFrame =
  | {
      readonly kind: 'hello'
      /** Another one than before: the server was started anew, and what the page knows may never have been saved. */
      readonly epoch: string
      /** The address served, which invitation links carry whatever name the page was opened by. */
      readonly address: string
      readonly people: People
      readonly marks: Readonly<Record<string, number>>
      readonly clock: ClockView | null
    }
  | { readonly kind: 'people'; readonly people: People }
  | { readonly kind: 'chat'; readonly address: string; readonly isWhole: boolean; readonly items: readonly Item[] }
  /** How many messages a person has been sent in all; the page knows how many of them were seen. */
  | { readonly kind: 'mark'; readonly address: string; readonly received: number }
  | { readonly kind: 'taken'; readonly id: string }
  | { readonly kind: 'refusal'; readonly id: string | null; readonly code: RefusalCode }
  | { readonly kind: 'clock'; readonly clock: ClockView | null }

/** Without control characters, save line feed and tab, and without halves of a character: they trip up other readers. */
function toReadable(text: string): string {
  return Buffer.from(text).toString().replace(/[^\P{Cc}\n\t]/gu, '')
}

export type ReadFrame =
  | { readonly kind: 'frame'; readonly frame: PageFrame }
  | { readonly kind: 'malformed'; readonly id: string | null }

/** Reads what came over a socket. A malformed frame's id is kept where it has one, so that the page stops sending it. */
export function readPageFrame(text: string): ReadFrame {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    return { kind: 'malformed', id: null }
  }
  const parsed = pageFrameSchema.safeParse(value)
  if (parsed.success) return { kind: 'frame', frame: parsed.data }
  const named = z.object({ id: sendIdSchema }).safeParse(value)
  return { kind: 'malformed', id: named.success ? named.data.id : null }
}
