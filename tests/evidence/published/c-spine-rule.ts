// The Canadian C-spine rule: Stiell 2001, JAMA 286:1841-1848 [found] https://fpnotebook.com/Ortho/Exam/CndnCSpnRl.htm ,
// https://www.wikem.org/w/index.php?diff=15647&oldid=7234&title=Canadian_cervical_spine_rule . Copies that print "over 65"
// or "one high or two low" are wrong. For an examiner who stands beside the patient: a chat cannot work it out, and uses it
// only to know what must never be waved through.

export type Mechanism =
  | { readonly kind: 'fall'; readonly metres: number; readonly stairs: number }
  | { readonly kind: 'load along the head' }
  | { readonly kind: 'car crash'; readonly kilometresPerHour: number; readonly rolledOver: boolean; readonly ejected: boolean }
  | { readonly kind: 'motorised recreational vehicle' }
  | { readonly kind: 'bicycle collision' }
  | RearEnd
  | { readonly kind: 'other' }

/** Hit from behind; simple only if none of the four holds. */
interface RearEnd {
  readonly kind: 'rear-end crash'
  readonly pushedIntoTraffic: boolean
  readonly byLargeVehicle: boolean
  readonly rolledOver: boolean
  readonly atHighSpeed: boolean
}

export const lowRiskFactors = ['sitting', 'walked at any time', 'delayed onset of pain', 'no midline tenderness'] as const
export type LowRiskFactor = (typeof lowRiskFactors)[number]

export interface Injured {
  readonly age: number
  readonly comaScale: number
  readonly isStable: boolean
  readonly hasVertebralDisease: boolean
  readonly hadNeckSurgery: boolean
  readonly isParalysed: boolean
  readonly mechanism: Mechanism
  readonly hasTinglingLimbs: boolean
  readonly lowRisk: readonly LowRiskFactor[]
  readonly rotationDegrees: { readonly left: number; readonly right: number }
}

export type Result =
  | { readonly kind: 'not applicable' | 'no imaging' }
  | { readonly kind: 'image'; readonly because: 'high-risk factor' | 'no low-risk factor' | 'cannot turn' }

export function applyRule(injured: Injured): Result {
  if (!isApplicable(injured)) return { kind: 'not applicable' }
  if (hasHighRiskFactor(injured)) return { kind: 'image', because: 'high-risk factor' }
  if (injured.lowRisk.length === 0 && !isSimpleRearEnd(injured.mechanism)) return { kind: 'image', because: 'no low-risk factor' }
  const { left, right } = injured.rotationDegrees
  return Math.min(left, right) >= 45 ? { kind: 'no imaging' } : { kind: 'image', because: 'cannot turn' }
}

function isApplicable({ age, comaScale, isStable, hasVertebralDisease, hadNeckSurgery, isParalysed }: Injured): boolean {
  return age >= 16 && comaScale === 15 && isStable && !hasVertebralDisease && !hadNeckSurgery && !isParalysed
}

export function hasHighRiskFactor({ age, mechanism, hasTinglingLimbs }: Injured): boolean {
  return age >= 65 || isDangerous(mechanism) || hasTinglingLimbs
}

const dangerous: { [Kind in Mechanism['kind']]: (mechanism: Extract<Mechanism, { kind: Kind }>) => boolean } = {
  fall: ({ metres, stairs }) => metres >= 1 || stairs >= 5,
  'load along the head': () => true,
  'car crash': ({ kilometresPerHour, rolledOver, ejected }) => kilometresPerHour > 100 || rolledOver || ejected,
  'motorised recreational vehicle': () => true,
  'bicycle collision': () => true,
  'rear-end crash': ({ rolledOver }) => rolledOver,
  other: () => false,
}

function isDangerous(mechanism: Mechanism): boolean {
  return (dangerous[mechanism.kind] as (mechanism: Mechanism) => boolean)(mechanism)
}

function isSimpleRearEnd(mechanism: Mechanism): boolean {
  if (mechanism.kind !== 'rear-end crash') return false
  const { pushedIntoTraffic, byLargeVehicle, rolledOver, atHighSpeed } = mechanism
  return !(pushedIntoTraffic || byLargeVehicle || rolledOver || atHighSpeed)
}
