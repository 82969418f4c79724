// The page that shows every flow: its picture, what it is for, what its states ask, and where each event leads.
import { sayWay } from './flow-boxes.ts'
import type { ShownFlow, ShownState, ShownWay } from './flow-graph.ts'

const introduction = `# The conversations

Written by \`npm run pictures\` from \`flows/\` and \`content/wording/en\`; a test fails when it is out of date. Do not edit it.

A rounded box asks; a lozenge decides by what is known, and nobody sees it; a double line is an end; a dashed box names the
state where it goes on. An arrow without words is taken whatever the answer is. Words in quotation marks are answers, others
are facts about the client or the plan; the first that holds is taken, and \`otherwise\` comes last. \`{name}\` stands for
what is filled in. Events that are not answers (\`stop\`, \`not-today\`, \`back\`, and \`close\` for what happens from outside: midnight,
a lock, a later reminder) stand in the boxes or, where they hold everywhere, at the top.
`

export function drawFlowPage(flows: readonly ShownFlow[]): string {
  const list = flows.map(({ id, purpose }) => `- [${id}](#${id}): ${purpose}`)
  return [introduction, `${list.join('\n')}\n`, ...flows.map(sectionOf)].join('\n')
}

function sectionOf(flow: ShownFlow): string {
  const rows = flow.states.map((state) => `| \`${state.name}\` | ${cell(asksOf(state))} | ${state.ways.map(leads).join('<br>')} |`)
  return `## ${flow.id}

${flow.purpose}

![The states of ${flow.id} and the ways between them; the table below says the same in words](${flow.id}.svg)

In every state that says nothing else: ${flow.everywhere.map(leads).join('; ')}.

| state | asks | leads to |
| --- | --- | --- |
${rows.join('\n')}
`
}

function asksOf({ kind, question, notes }: ShownState): string {
  const what = question ?? { decides: '*decides*', ends: '*the end*', asks: '', elsewhere: '' }[kind]
  return [what, ...notes.map((note) => `*(${note})*`)].join(' ')
}

function leads(way: ShownWay): string {
  const does = way.actions.length === 0 ? '' : ` (${way.actions.map((action) => `\`${action}\``).join(', ')})`
  return `${cell(sayWay(way))}${does}`
}

/** Wording is no markup, and a line of a table has no end in its middle. */
function cell(text: string): string {
  return text.replaceAll(/[|<>\\`]/g, (character) => `\\${character}`)
}
