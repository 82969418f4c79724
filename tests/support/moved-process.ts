// Loaded into a product process before anything else (`node --import`): its clock can be moved on from outside, and its disk
// can be made full. The product knows nothing of it, and nothing in `src/` has a way in.
import { disk } from './full-disk.ts'
import { moveClock } from './moved-clock.ts'
import type { Order } from './process-orders.ts'

const takers: { readonly [Kind in Order['kind']]: (order: Extract<Order, { kind: Kind }>) => void } = {
  clock: ({ offsetMs }) => moveClock(offsetMs),
  disk: ({ isFull }) => {
    disk.isFull = isFull
  },
}

process.on('message', (order: Order) => {
  ;(takers[order.kind] as (order: Order) => void)(order)
  process.send?.({ done: order.kind })
})
// It must not keep the process alive, nor outlive whoever started it.
process.channel?.unref()
process.on('disconnect', () => process.exit(70))
