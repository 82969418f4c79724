import { controls, type Control } from '#src/domain/set-report.ts'
import { certaintyOf, type Certainty } from './certainty.ts'
import { clauseNumbers, findWhole } from './clauses.ts'
import { longestOnly, type MarkedText } from './marked-text.ts'

type Wording = 'steady' | 'praise' | 'unmoved' | 'shaky' | 'moved' | 'lost'

/** What each wording says of control, by whether it is said to be so. */
const meaning: Readonly<Record<Wording, Readonly<Record<Certainty, Control>>>> = {
  steady: { sure: 'steady', usual: 'steady', unsure: 'shaky', denied: 'lost' },
  praise: { sure: 'steady', usual: 'steady', unsure: 'shaky', denied: 'shaky' },
  unmoved: { sure: 'steady', usual: 'steady', unsure: 'shaky', denied: 'lost' },
  shaky: { sure: 'shaky', usual: 'shaky', unsure: 'shaky', denied: 'steady' },
  moved: { sure: 'lost', usual: 'lost', unsure: 'shaky', denied: 'steady' },
  lost: { sure: 'lost', usual: 'lost', unsure: 'lost', denied: 'steady' },
}
const wordings = Object.keys(meaning) as readonly Wording[]

/**
 * How clean the set was: the worst that is said. Asked is whether chin, shoulders or body moved to help, so that "no" alone
 * is steady, "a little" shaky and "yes" lost.
 */
export function readControl(text: MarkedText): Control | null {
  const { found } = text
  const said = controlsSaid(text)
  const has = (list: string): boolean => findWhole(list, found) !== undefined
  const isLittle = found.all('a-little').length > 0
  const isAnswered = found.all('says-yes').length + found.all('says-no').length > 0
  if (has('a-little') || has('mostly') || (isLittle && isAnswered)) said.push('shaky')
  else if (has('says-no')) said.push('steady')
  const worst = controls.toReversed().find((control) => said.includes(control)) ?? null
  if (!has('says-yes') || isLittle) return worst
  // "Yes, steady" answers another question than ours.
  return worst === 'steady' ? null : 'lost'
}

/**
 * How clean the set was, told without having been asked: only in words that speak of nothing else. "Fine" may be said of
 * anything, and "no" of what was asked.
 */
export function readToldControl(text: MarkedText): Control | null {
  const said = controlsSaid(text, wordings.filter((wording) => wording !== 'praise'))
  return controls.toReversed().find((control) => said.includes(control)) ?? null
}

function controlsSaid(text: MarkedText, of: readonly Wording[] = wordings): Control[] {
  const { found } = text
  const clauses = clauseNumbers(found)
  const little = new Set(found.all('a-little').map((it) => clauses[it.start]))
  // "Steady except the last one" runs over the contrast, so this holds for the sentence.
  const mostly = new Set(found.all('mostly').filter((it) => !text.isHarmless(it.start)).map((it) => text.sentenceOf(it.start)))
  return longestOnly([...wordings, 'tells-no-control'].flatMap((list) => found.all(list)))
    .filter((it) => of.some((wording) => wording === it.list))
    .map((it) => {
      const wording = it.list as Wording
      const control = meaning[wording][certaintyOf(it, text)]
      if (control === 'lost' && wording === 'moved' && little.has(clauses[it.start])) return 'shaky'
      return control === 'steady' && mostly.has(text.sentenceOf(it.start)) ? 'shaky' : control
    })
}
