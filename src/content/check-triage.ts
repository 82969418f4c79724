// What one part of the triage content says of another.
import type { Gates, IllnessRule, Sign } from '#src/domain/triage.ts'
import { knownConditions } from './known-ids.ts'
import type { PathSegment } from './yaml-source.ts'

/** The group of the signs that the screen never asks. */
export const unasked = 'none'

interface Fault {
  readonly path: readonly PathSegment[]
  readonly message: string
  readonly mend: string
}

/** As it stands in the file, its values read. */
export interface ReadTriage {
  readonly groups: readonly string[]
  readonly groups_only_with: Readonly<Record<string, readonly string[]>>
  readonly signs: readonly Sign[]
  readonly never_known: readonly string[]
  readonly illness: IllnessRule
  readonly gates: Gates
}

export function faultsOfTriage(triage: ReadTriage): readonly Fault[] {
  const { groups, groups_only_with: onlyWith, signs, never_known: neverKnown, illness, gates } = triage
  const routine = signs.filter((sign) => sign.level === 'routine')
  return [
    ...signs.flatMap((sign, index) => faultsOfSign(sign, index, triage)),
    ...unknown(Object.keys(onlyWith), groups, 'is no group of this file', (_, group) => ['groups_only_with', group]),
    ...Object.entries(onlyWith).flatMap(([group, conditions]) => unknownConditions(conditions, gates, ['groups_only_with', group])),
    ...unknown(neverKnown, signs.map(({ id }) => id), 'is no sign of this file', (index) => ['never_known', 'value', index]),
    ...unknown(illness.signs, routine.map(({ id }) => id), 'is no routine sign of this file', (index) => ['illness', 'signs', 'value', index]),
    ...unknownConditions(illness.urgentAloneWith, gates, ['illness', 'urgent_alone_with', 'value']),
  ]
}

function faultsOfSign(sign: Sign, index: number, { groups, signs }: ReadTriage): readonly Fault[] {
  const isTwice = signs.findIndex((other) => other.id === sign.id) < index
  return [
    ...unknown([sign.group], [...groups, unasked], 'is no group of this file', () => ['signs', index, 'group']),
    ...(isTwice ? [{ path: ['signs', index, 'id'], message: 'stands twice', mend: 'Remove one of the two.' }] : []),
  ]
}

function unknownConditions(ids: readonly string[], gates: Gates, path: readonly string[]): readonly Fault[] {
  return unknown(ids, knownConditions(gates), 'is no condition of the gates', (index) => [...path, index])
}

function unknown(ids: readonly string[], known: readonly string[], message: string, pathOf: (index: number, id: string) => readonly PathSegment[]): readonly Fault[] {
  return ids.flatMap((id, index) => (known.includes(id) ? [] : [{ path: pathOf(index, id), message, mend: `Use one of: ${known.join(', ')}.` }]))
}
