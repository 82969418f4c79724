import type { Part } from './messages.ts'
import { fractionOf, type Miss, type Score, type Share } from './score.ts'

const lists = {
  'signs missed': 'missedSigns',
  'false alarms': 'falseAlarms',
  'alarmed where asking would do (early)': 'early',
  'not asked': 'unasked',
  'alarmed or asked without cause': 'disturbed',
  'values missed': 'missedValues',
  'values read wrongly': 'wrongValues',
  'stop misread': 'missedStops',
} as const satisfies Readonly<Record<string, keyof Score>>

/** The figures, and what stands behind them. Held-out texts stay unprinted, so that nobody tunes the reader to them by the way. */
export function printScore(name: string, part: Part, score: Score): string {
  const figures: readonly (readonly [string, Share])[] = [
    ['recall of emergency signs', score.recall.emergency],
    ['recall of urgent signs', score.recall.urgent],
    ['recall of routine signs', score.recall.routine],
    ['alarm at the level of an emergency or urgent sign', score.alarmed],
    ['the same, asking included', score.alarmedOrAsked],
    ['precision of alarms', score.precision],
    ['doubts asked about', score.asked],
    ['plain messages left alone', score.undisturbed],
    ['values right', score.values],
    ['no wrong value', score.notWrong],
    ['stop right', score.stops],
  ]
  return [
    `${name}: ${score.messages} messages`,
    ...figures.map(([what, share]) => `  ${what}: ${(fractionOf(share) * 100).toFixed(1)} % (${share.right} of ${share.of})`),
    ...Object.entries(lists).flatMap(([title, key]) => listed(title, score[key], part)),
  ].join('\n')
}

function listed(title: string, misses: readonly Miss[], part: Part): readonly string[] {
  if (misses.length === 0) return []
  const lines = misses.map(({ number, text, expected, got }) => {
    const said = part === 'held-out' ? '' : ` ${JSON.stringify(text)}`
    return `    #${number}${said} – ${expected} – read: ${got}`
  })
  return [`  ${title} (${misses.length})`, ...lines]
}
