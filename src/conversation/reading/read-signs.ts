import { brandAs } from '#src/domain/identifier.ts'
import type { RedFlag } from '#src/domain/triage.ts'
import type { PlaceList, WatchList } from '#src/content/lexicon.ts'
import { bareTemperatures } from './bare-temperatures.ts'
import { certaintyOf, isOfClient, type Certainty } from './certainty.ts'
import { combineSigns } from './combine-signs.ts'
import type { Occurrence } from './find-phrases.ts'
import { ownTokens, type MarkedText } from './marked-text.ts'
import { segmentsOf } from './segments.ts'
import { cueLists, signRules, watchedFor, type Companion, type SignRule } from './sign-rules.ts'
import { signLevels, signNames, type SignName } from './signs.ts'

export interface SignsRead {
  readonly sure: readonly RedFlag[]
  readonly unsure: readonly RedFlag[]
  /** Pain itself, which is no sign, as far as it is spoken of. */
  readonly ache: readonly Certainty[]
  /** What the signs rest on, in the order of the text; each kind of symptom once for each sign. */
  readonly grounds: readonly Ground[]
}

/** What makes the bot ask, and on what it rests. */
export type Asked = Pick<SignsRead, 'unsure' | 'grounds'>

/** A symptom that is not denied, with what makes a sign of it. */
export interface Ground {
  /** Null for a symptom that is a sign only together with others ("stiff neck"). */
  readonly sign: SignName | null
  readonly isSure: boolean
  readonly symptom: Occurrence
  readonly isSureSymptom: boolean
  /** The places and cues that its rule asks for. */
  readonly companions: readonly Occurrence[]
}

/** The signs that a text speaks of, each once, worst level first. */
export function readSigns(text: MarkedText): SignsRead {
  const companionsOf = companionsIn(text)
  const sure = new Set<SignName>()
  const unsure = new Set<SignName>()
  const sureSymptoms = new Set<string>()
  const denied = new Set<number>()
  const ache: Certainty[] = []
  const grounds = new Map<string, Ground>()
  const addGround = (ground: Ground): void => {
    const key = `${ground.symptom.list} ${ground.sign} ${ground.isSure} ${ground.isSureSymptom}`
    if (!grounds.has(key)) grounds.set(key, ground)
  }
  for (const it of [...text.symptoms, ...bareTemperatures(text)]) {
    const companions = companionsOf(it)
    const rules = signRules[it.list as keyof typeof signRules].filter((rule) => fits(rule, companions))
    // Said again: nothing can come of it that is not raised already.
    if (it.list !== 'ache' && sureSymptoms.has(it.list) && rules.every(({ sign }) => sure.has(sign))) continue
    const certainty = certaintyOf(it, text)
    if (it.list === 'ache') ache.push(certainty)
    if (certainty === 'denied') {
      for (const index of ownTokens(it)) denied.add(index)
      continue
    }
    if (certainty === 'sure') sureSymptoms.add(it.list)
    const isSureSymptom = certainty === 'sure'
    if (isSureSymptom) addGround({ sign: null, isSure: false, symptom: it, isSureSymptom, companions: [] })
    for (const rule of rules) {
      // An emergency sign cannot be recorded as known: "as usual" does not calm it.
      const isSaid = certainty === 'sure' || (certainty === 'usual' && signLevels[rule.sign] === 'emergency')
      const isSure = isSaid && rule.isPossible !== true
      ;(isSure ? sure : unsure).add(rule.sign)
      const needed = (rule.with ?? []).flatMap((one) => companions.get(one) ?? [])
      addGround({ sign: rule.sign, isSure, symptom: it, isSureSymptom, companions: needed })
    }
  }
  const combined = combineSigns(sure, sureSymptoms)
  // Where something alarms already, nothing is asked.
  for (const it of sure.size > 0 ? [] : text.watched) {
    if (!isOfClient(it, text) || ownTokens(it).every((index) => denied.has(index))) continue
    const sign = watchedFor[it.list as WatchList]
    unsure.add(sign)
    addGround({ sign, isSure: false, symptom: it, isSureSymptom: false, companions: [] })
  }
  return {
    sure: flagsOf((name) => combined.has(name)),
    unsure: flagsOf((name) => unsure.has(name) && !combined.has(name)),
    ache,
    grounds: [...grounds.values()],
  }
}

const longestWobble = 4

/**
 * "Bit wobbly", in answer to a question of yes or no: it is neither, and may be said of legs or head, so that the bot asks.
 * A longer message says what wobbles.
 */
export function wobbleOf(text: MarkedText): Asked | null {
  const it = text.found.all('shaky').find((one) => certaintyOf(one, text) !== 'denied')
  if (it === undefined || text.found.tokens.length > longestWobble) return null
  return askedAbout('unsteady-walking', it)
}

/** A sign that the bot asks about because of these words. */
export function askedAbout(sign: SignName, symptom: Occurrence): Asked {
  return { unsure: flagsOf((name) => name === sign), grounds: [{ sign, isSure: false, symptom, isSureSymptom: true, companions: [] }] }
}

/** The first occurrence of each; "nowhere" stands in no words. */
type Companions = ReadonlyMap<Companion, Occurrence | null>

function fits(rule: SignRule, companions: Companions): boolean {
  if (rule.with?.some((one) => !companions.has(one)) === true) return false
  return rule.without?.some((one) => companions.has(one)) !== true
}

function flagsOf(isRaised: (name: SignName) => boolean): readonly RedFlag[] {
  return signNames.filter(isRaised).map((name) => ({ level: signLevels[name], sign: brandAs(name) }))
}

/** What stands with each symptom: places in its segment, cues in its sentence. */
function companionsIn(text: MarkedText): (it: Occurrence) => Companions {
  const segments = segmentsOf(text)
  const places = new Map<number, Map<Companion, Occurrence>>()
  for (const place of text.places) {
    if (isExcluded(place, text)) continue
    addTo(places, segments[place.start] ?? 0, place.list as PlaceList, place)
  }
  const cues = new Map<number, Map<Companion, Occurrence>>()
  for (const list of cueLists) {
    for (const cue of text.found.all(list)) {
      if (ownTokens(cue).some((index) => text.isHarmless(index)) || isExcluded(cue, text)) continue
      addTo(cues, text.sentenceOf(cue.start), list, cue)
    }
  }
  const nowhere: Companions = new Map([['nowhere', null]])
  return (it) => {
    const where: Companions = places.get(segments[it.start] ?? 0) ?? nowhere
    const how = cues.get(text.sentenceOf(it.start))
    return how === undefined ? where : new Map([...where, ...how])
  }
}

function addTo(map: Map<number, Map<Companion, Occurrence>>, key: number, name: Companion, it: Occurrence): void {
  const here = map.get(key)
  if (here === undefined) map.set(key, new Map([[name, it]]))
  else if (!here.has(name)) here.set(name, it)
}

/** "… but not in my face", "not sudden". */
function isExcluded(it: Occurrence, text: MarkedText): boolean {
  const { found } = text
  for (let index = it.start; index > Math.max(0, it.start - 4); index -= 1) {
    const isOwn = text.isSymptomWord(index - 1) || text.isIdiom(index - 1)
    if (found.endingAt('not', index) !== undefined && !isOwn) return true
    // "Losing weight without dieting".
    if (it.list === 'on-purpose' && found.endingAt('no-noun', index) !== undefined) return true
    if (text.itemEndingAt(index) !== undefined || found.endingAt('transparent', index) === undefined) return false
  }
  return false
}
