import { z } from 'zod'
import { urgencies } from '#src/domain/message.ts'

/**
 * One line of a chat as the page shows it. `order` is its place and never changes; `seq` is that of its last change, so
 * that a page asks for what changed after the last one it knows. `stamp` is the clinic's clock as text, if there is one.
 */
const place = {
  id: z.string(),
  order: z.int().min(1),
  seq: z.int().min(1),
  stamp: z.string().nullable(),
}

/** False until the event is committed or parked; a page sends it again until then. */
const isTaken = z.boolean()

export const itemSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('message'),
    ...place,
    text: z.string(),
    urgency: z.enum(urgencies),
    /** Kept after an amend, so that a press that was under way still has its label; `isOpen` says whether they show. */
    buttons: z.array(z.array(z.strictObject({ label: z.string(), data: z.string() }))),
    isOpen: z.boolean(),
  }),
  z.strictObject({ kind: z.literal('said'), ...place, text: z.string(), isTaken }),
  z.strictObject({ kind: z.literal('pressed'), ...place, label: z.string(), isTaken }),
  z.strictObject({ kind: z.literal('joined'), ...place, isTaken }),
])

export type Item = Readonly<z.infer<typeof itemSchema>>
export type ItemOf<Kind extends Item['kind']> = Extract<Item, { kind: Kind }>

type Place = 'order' | 'seq'
/** An item before it has its place. */
export type ItemDraft = { [Kind in Item['kind']]: Omit<ItemOf<Kind>, Place> }[Item['kind']]
