// A change between two measurements in a therapist's words: how large it is, its error, and whom the sources measured.
import type { Words } from '#src/content/content.ts'
import type { Measure } from '#src/domain/measure.ts'
import { judgeChange, type Agreement, type ChangeVerdict, type Criterion, type CriterionKind } from '#src/rules/change-verdict.ts'

/** No more is said than holds in every source; where they disagree, it is said in whom. */
export function describeChange(words: Words, measure: Measure, first: number, last: number): string {
  const verdict = judgeChange(measure, first, last)
  const { points, percent, trend, error, importance, criteria } = verdict
  if (trend === 'same') return words.say('outcomes.change.same')
  // Per cent are said of a measure for which a source speaks of them.
  const hasPercent = percent !== null && measure.sources.some((source) => source.importantPercent !== null)
  return [
    words.say('outcomes.change.some', { points, percent: percent ?? 0, hasPercent: hasPercent ? 'yes' : 'no', trend }),
    words.say(`outcomes.error.${errorKey(verdict)}`),
    ...limitsOf(words, error, criteria.filter(({ kind }) => isAboutError[kind])),
    // Whether it matters is no question before it is known to be real.
    ...(error === 'every' && importance !== null
      ? [words.say(`outcomes.importance.${importance}`), ...limitsOf(words, importance, criteria.filter(({ kind }) => !isAboutError[kind]))]
      : []),
  ].join(' ')
}

const isAboutError: Record<CriterionKind, boolean> = { detectable: true, reliable: true, important: false, 'important-percent': false }

/** What mattered to people and yet is within the error may be real. */
function errorKey({ error, importance }: ChangeVerdict): string {
  if (error === null) return 'unknown'
  return error === 'no' && (importance === 'every' || importance === 'some') ? 'may-be-real' : error
}

/** Who was measured, with their limits; apart where some are reached and some are not. */
function limitsOf(words: Words, agreement: Agreement | null, criteria: readonly Criterion[]): readonly string[] {
  if (agreement === null) return []
  if (agreement !== 'some') return [words.say('outcomes.limits.all', { limits: byPopulation(words, criteria) })]
  const [reached, missed] = [true, false].map((isMet) => byPopulation(words, criteria.filter((one) => one.isMet === isMet)))
  return [words.say('outcomes.limits.apart', { reached: reached ?? '', missed: missed ?? '' })]
}

function byPopulation(words: Words, criteria: readonly Criterion[]): string {
  const populations = [...new Set(criteria.map(({ population }) => population))]
  return populations
    .map((population) => {
      const limits = criteria.filter((one) => one.population === population).map(({ kind, limit }) => words.say(`outcomes.limit.${kind}`, { limit }))
      return `${words.say(`outcomes.population.${population}`)} ${limits.join(' / ')}`
    })
    .join(', ')
}
