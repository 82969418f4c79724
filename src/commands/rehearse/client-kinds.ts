// The kinds of clients that are invented. Every number is our choice: they stand for nobody and forecast nothing; they make
// the rules show what they do.

export const clientKinds = ['steady', 'sore', 'forgetful', 'overeager', 'flaring', 'symptom'] as const
export type ClientKind = (typeof clientKinds)[number]

/** Chances are of 100; places are places of the chain; pain is in points of 0 to 10. */
export interface Temperament {
  /** Places above the start that are easy on the first day. */
  readonly headStart: number
  /** Places by which a session makes stronger. */
  readonly gain: number
  /** Pain for every place too hard; as much stays as soreness. */
  readonly painAPlace: number
  /** Repetitions told as left beyond those that are. */
  readonly boast: number
  readonly missesSession: number
  readonly missesMorning: number
  readonly leavesSetOut: number
  readonly trainsOffDays: number
  /** Once, this many days without a session, at least and at most. */
  readonly away: readonly [number, number] | null
  /** Once, a flare of this height, at least and at most. */
  readonly flare: readonly [number, number] | null
  readonly hasSymptom: boolean
}

const steady: Temperament = {
  headStart: 4,
  gain: 1.1,
  painAPlace: 0.4,
  boast: 0,
  missesSession: 3,
  missesMorning: 3,
  leavesSetOut: 1,
  trainsOffDays: 0,
  away: null,
  flare: null,
  hasSymptom: false,
}

export const temperaments: Readonly<Record<ClientKind, Temperament>> = {
  steady,
  sore: { ...steady, headStart: 1, gain: 0.5, painAPlace: 0.9, missesSession: 6 },
  forgetful: { ...steady, missesSession: 30, missesMorning: 40, leavesSetOut: 8, away: [10, 18] },
  overeager: { ...steady, headStart: 2, gain: 0.6, painAPlace: 0.6, boast: 3, missesSession: 0, trainsOffDays: 40 },
  flaring: { ...steady, gain: 0.9, flare: [3, 5] },
  symptom: { ...steady, hasSymptom: true },
}
