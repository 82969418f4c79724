// A chain as a therapist would write it down: a line for each load of each rung. [ ] is the entry, ! needs approval; a dose
// that stands twice is written twice.
import type { Chain, ChainPlace } from '#src/domain/chain.ts'
import type { Load } from '#src/domain/dose.ts'

const loadText: { [Kind in Load['kind']]: (load: Extract<Load, { kind: Kind }>) => string } = {
  none: () => 'no load',
  push: ({ effort }) => `push ${effort}`,
  mass: ({ kilograms }) => `${kilograms} kg`,
  force: ({ newtons, band, stretchCm }) => `${newtons} N, ${band} at ${stretchCm} cm`,
}

export function writeChain({ places }: Chain): readonly string[] {
  const lines = new Map<string, string[]>()
  for (const place of places) {
    const { load, sets } = place.dose
    const head = `rung ${place.rung}, ${(loadText[load.kind] as (load: Load) => string)(load)}: ${sets} ×`
    lines.set(head, [...(lines.get(head) ?? []), writeWork(place)])
  }
  return [...lines].map(([head, doses]) => `${head} ${doses.join(' ')}`)
}

function writeWork({ dose, isEntry, needsApproval }: ChainPlace): string {
  const work = dose.holdSeconds === null ? String(dose.reps) : `${dose.reps}×${dose.holdSeconds}s`
  return `${isEntry ? `[${work}]` : work}${needsApproval ? '!' : ''}`
}
