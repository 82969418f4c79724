import { createDelivery } from '#src/delivery/create-delivery.ts'
import type { Delivery } from '#src/delivery/delivery.ts'
import type { DocumentId, EventId } from '#src/domain/identifier.ts'
import type { Store } from '#src/ports/store.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { createDiaryHandler, documentId, type Diary, type DiaryEvent, type Respond } from './diary-handler.ts'
import { FragileDisk } from './fragile-disk.ts'
import { ManualClock } from './manual-clock.ts'
import { RecordingLog } from './recording-log.ts'
import { ScriptedChannel } from './scripted-channel.ts'

export interface Parked {
  readonly document: DocumentId | null
  readonly event: EventId
  readonly errorName: string
}

/** A delivery with everything around it under the test's control. */
export interface Bench {
  readonly delivery: Delivery<DiaryEvent>
  readonly store: Store
  readonly disk: FragileDisk
  readonly channel: ScriptedChannel
  readonly clock: ManualClock
  readonly log: RecordingLog
  readonly parked: Parked[]
  /** What a document wrote down. */
  lines(document: string): Promise<readonly string[] | null>
}

export interface BenchParts {
  readonly respond: Respond
  readonly disk?: FragileDisk
  readonly clock?: ManualClock
  readonly channel?: ScriptedChannel
  readonly isStarted?: boolean
  /** This process's part of what the network takes. */
  readonly share?: () => number
  /** Puts something between the delivery and its store, such as a slow line. */
  readonly wrap?: (store: Store) => Store
}

/** An arbitrary instant, 2027-03-01T09:00Z. */
export const benchStart = Date.UTC(2027, 2, 1, 9)

export async function openBench(parts: BenchParts): Promise<Bench> {
  const { respond, disk = new FragileDisk(), channel = new ScriptedChannel() } = parts
  const clock = parts.clock ?? new ManualClock(benchStart)
  const store = parts.wrap?.(createMemoryStore(disk)) ?? createMemoryStore(disk)
  await store.open()
  const log = new RecordingLog()
  const parked: Parked[] = []
  const delivery = createDelivery({
    store,
    clock,
    channels: [channel],
    handler: createDiaryHandler(respond),
    log,
    wait: clock.wait,
    newSecret: () => 'fresh',
    ...(parts.share === undefined ? {} : { share: parts.share }),
    onParked: (document, event, errorName) => parked.push({ document, event, errorName }),
  })
  if (parts.isStarted ?? true) await delivery.start()
  const lines = async (document: string): Promise<readonly string[] | null> =>
    (await store.read<Diary>(documentId(document)))?.lines ?? null
  return { delivery, store, disk, channel, clock, log, parked, lines }
}

/** The process is killed where it stands and another starts on the same disk. What the old one still did is lost. */
export async function reopenAfterKill(old: Bench, parts: BenchParts): Promise<Bench> {
  return openBench({ clock: old.clock, ...parts, disk: await old.disk.afterKill() })
}
