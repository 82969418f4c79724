import type { Content, Words } from './content.ts'
import type { Problem } from './problem.ts'
import { unasked } from './check-triage.ts'
import { WordingError } from './words.ts'

/** What is missing from content of the right shape. `wordingKeys` are all the texts that flows and code ask for. */
export function checkContent(content: Content, wordingKeys: readonly string[]): readonly Problem[] {
  const languages = [...content.languages.values()].map(({ words }) => words)
  return [
    ...languages.flatMap((words) => missingTexts(words, wordingKeys)),
    ...languages.flatMap((words) => missingExerciseWords(words, content)),
    ...unusedExercises(content),
    ...emptyGroups(content),
    ...conditionsThatCloseNoBridge(content),
  ]
}

function problemIn(file: string, path: string, message: string, mend: string): Problem {
  return { file: `content/${file}`, line: 1, path, message, mend }
}

function missingTexts(words: Words, keys: readonly string[]): readonly Problem[] {
  return [...new Set(keys)]
    .filter((key) => !words.has(key))
    .map((key) => {
      const [file, ...path] = key.split('.')
      return problemIn(`wording/${words.language}/${file}.yaml`, path.join('.'), 'is missing', 'Add the text.')
    })
}

function missingExerciseWords(words: Words, content: Content): readonly Problem[] {
  return [...content.exercises.keys()]
    .filter((id) => !hasWords(words, id))
    .map((id) => {
      const mend = 'Add the words in this language.'
      return problemIn(`exercises/${id}.yaml`, `words.${words.language}`, 'is missing', mend)
    })
}

function hasWords(words: Words, id: Parameters<Words['exerciseName']>[0]): boolean {
  try {
    words.exerciseName(id)
    return true
  } catch (error) {
    if (error instanceof WordingError && error.code === 'unknown-exercise') return false
    throw error
  }
}

function unusedExercises({ exercises, ladders }: Content): readonly Problem[] {
  const used = [...ladders.values()].flatMap((ladder) => [
    ...ladder.warmUp.map((step) => step.exercise),
    ...ladder.rungs.flatMap((rung) => rung.exercises),
  ])
  return [...exercises.keys()]
    .filter((id) => !used.includes(id))
    .map((id) => {
      const mend = 'Put it on a rung or into a warm-up, or remove it.'
      return problemIn(`exercises/${id}.yaml`, 'id', 'stands on no ladder', mend)
    })
}

/** A group without a sign would be a question whose answer leads nowhere. */
function emptyGroups({ triage }: Content): readonly Problem[] {
  return triage.groups
    .filter((group) => group !== unasked && !triage.signs.some((sign) => sign.group === group))
    .map((group) => {
      const message = `has the group ${group}, which holds no sign`
      return problemIn('triage.yaml', 'groups', message, 'Add its signs, or remove it.')
    })
}

/** The gate works through the exercises that name the condition: named by none, it would do nothing. */
function conditionsThatCloseNoBridge({ exercises, triage }: Content): readonly Problem[] {
  const closing = [...exercises.values()].flatMap((exercise) => exercise.ruledOutBy.contraindications)
  return triage.gates.noBridge
    .filter((condition) => !closing.includes(condition))
    .map((condition) => {
      const message = `names ${condition}, which rules out no exercise`
      return problemIn('triage.yaml', 'gates.no_bridge', message, 'Name it in the bridge exercise.')
    })
}
