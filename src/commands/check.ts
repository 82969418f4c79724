import { flows } from '#flows/registry.ts'
import { contentFolder } from '#src/app.ts'
import { checkContent } from '#src/content/check-content.ts'
import { loadContent } from '#src/content/load-content.ts'
import { readPlan } from '#src/content/read-plan.ts'
import { digestOfMatter, readTriageMatter } from '#src/content/triage-matter.ts'
import { readSignature } from '#src/content/triage-signature.ts'
import { ContentError, formatProblem, type Problem } from '#src/content/problem.ts'
import { checkFlow, wordingKeysOf } from '#src/conversation/check-flow.ts'
import { wordingKeysOfContent } from '#src/conversation/wording-keys.ts'
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { describeSignature } from './describe-signature.ts'
import { readInputFile } from './read-input-file.ts'

export interface Checked {
  readonly problems: readonly Problem[]
  /** What should be known and is no fault. */
  readonly notes: readonly string[]
  /** What was looked at, so that a check of nothing cannot pass for a good one. */
  readonly counts: Readonly<Record<string, number>>
}

/** Content, plans to try, flows, and the signature that `dataDir` holds; unusable content is a list of problems like any other. */
export function check(folder: string = contentFolder, dataDir: string | null = null): Checked {
  try {
    const content = loadContent(folder)
    const keys = [...[...flows.values()].flatMap(wordingKeysOf), ...wordingKeysOfContent(content)]
    const plans = readdirSync(join(folder, 'plans')).filter((name) => name.endsWith('.yaml'))
    for (const plan of plans) readPlan(readInputFile(join(folder, 'plans', plan)), `content/plans/${plan}`, content)
    const ofFlows = [...flows.values()].flatMap(checkFlow).map(({ flow, state, message, mend }) => ({ file: `flows/${flow}.ts`, line: 1, path: state, message, mend }))
    const signature = dataDir === null ? null : readSignature(dataDir, digestOfMatter(readTriageMatter(folder, content)))
    return {
      problems: [...checkContent(content, keys), ...ofFlows, ...(signature?.problems ?? [])],
      notes: signature === null ? [] : [describeSignature(signature.state, content.triage.version)],
      counts: { exercises: content.exercises.size, ladders: content.ladders.size, protocols: content.protocols.size, languages: content.languages.size, plans: plans.length, flows: flows.size },
    }
  } catch (error) {
    if (error instanceof ContentError) return { problems: error.problems, notes: [], counts: {} }
    throw error
  }
}

export function printCheck({ problems, notes, counts }: Checked): string {
  if (problems.length > 0) return problems.map(formatProblem).join('\n')
  const looked = Object.entries(counts).map(([name, count]) => `${count} ${name}`)
  return [`Content and flows hold: ${looked.join(', ')}.`, ...notes].join('\n')
}
