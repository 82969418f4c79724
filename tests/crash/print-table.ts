import type { Audited } from './audit.ts'
import type { Lived } from './clinic.ts'
import { killKinds } from './kill-kinds.ts'

export interface Played {
  readonly lived: Lived
  readonly audited: Audited
}

export function printTable(played: readonly Played[], seconds: number): readonly string[] {
  const sum = (of: (one: Played) => number): number => played.reduce((total, one) => total + of(one), 0)
  const rows = killKinds.flatMap((kind) => {
    const count = sum(({ lived }) => lived.killsByKind.get(kind) ?? 0)
    return count === 0 ? [] : [`| ${kind} | ${count} |`]
  })
  const count = (name: keyof Audited['counts']): number => sum(({ audited }) => audited.counts[name])
  return [
    '| killed | times |',
    '| --- | --- |',
    ...rows,
    `| together | ${sum(({ lived }) => [...lived.killsByKind.values()].reduce((total, one) => total + one, 0))} |`,
    '',
    '| after it | |',
    '| --- | --- |',
    `| answers of clients | ${count('answers')} |`,
    `| sets reported whole or stopped by a sign | ${count('sets')} |`,
    `| texts stored once, in order | ${count('texts')} |`,
    `| alerts that came to the therapist | ${count('alerts')} |`,
    `| questions that came twice | ${count('repeated')} |`,
    `| half days lived through | ${sum(({ lived }) => lived.pages)} |`,
    `| seconds | ${Math.round(seconds)} |`,
  ]
}
