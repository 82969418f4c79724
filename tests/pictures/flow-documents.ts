// What `docs/flows` holds, as text: the test compares it, `npm run pictures` writes it.
import { flows } from '#flows/registry.ts'
import { content } from '#tests/support/sample-chain.ts'
import { drawFlow } from './draw-flow.ts'
import { showFlow } from './flow-graph.ts'
import { drawFlowPage } from './flow-page.ts'

export const flowFolder = new URL('../../docs/flows/', import.meta.url)

/** By file name. */
export function flowDocuments(): ReadonlyMap<string, string> {
  const words = content.languages.get('en')?.words
  if (words === undefined) throw new Error('there is no English wording')
  const shown = [...flows.values()].map((flow) => showFlow(flow, words))
  const pictures = shown.map((flow) => [`${flow.id}.svg`, drawFlow(flow)] as const)
  return new Map([['README.md', drawFlowPage(shown)], ...pictures])
}
