import { flows } from '#flows/registry.ts'
import { contentFolder } from '#src/app.ts'
import { checkContent } from '#src/content/check-content.ts'
import { loadContent } from '#src/content/load-content.ts'
import { readPlan } from '#src/content/read-plan.ts'
import { ContentError, formatProblem, type Problem } from '#src/content/problem.ts'
import { checkFlow, wordingKeysOf } from '#src/conversation/check-flow.ts'
import { wordingKeysOfContent } from '#src/conversation/wording-keys.ts'
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { readInputFile } from './read-input-file.ts'

export interface Checked {
  readonly problems: readonly Problem[]
  /** What was looked at, so that a check of nothing cannot pass for a good one. */
  readonly counts: Readonly<Record<string, number>>
}

/** Content, plans to try and flows; unusable content is a list of problems like any other. */
export function check(folder: string = contentFolder): Checked {
  try {
    const content = loadContent(folder)
    const keys = [...[...flows.values()].flatMap(wordingKeysOf), ...wordingKeysOfContent(content)]
    const plans = readdirSync(join(folder, 'plans')).filter((name) => name.endsWith('.yaml'))
    for (const plan of plans) readPlan(readInputFile(join(folder, 'plans', plan)), `content/plans/${plan}`, content)
    const ofFlows = [...flows.values()].flatMap(checkFlow).map(({ flow, state, message, mend }) => ({ file: `flows/${flow}.ts`, line: 1, path: state, message, mend }))
    return {
      problems: [...checkContent(content, keys), ...ofFlows],
      counts: { exercises: content.exercises.size, ladders: content.ladders.size, protocols: content.protocols.size, languages: content.languages.size, plans: plans.length, flows: flows.size },
    }
  } catch (error) {
    if (error instanceof ContentError) return { problems: error.problems, counts: {} }
    throw error
  }
}

export function printCheck({ problems, counts }: Checked): string {
  if (problems.length > 0) return problems.map(formatProblem).join('\n')
  const looked = Object.entries(counts).map(([name, count]) => `${count} ${name}`)
  return `Content and flows hold: ${looked.join(', ')}.`
}
