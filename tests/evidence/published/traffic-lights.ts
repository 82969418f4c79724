// Traffic-light leaflets for pain in exercise, which disagree [found]: https://providephysiotherapy.org.uk/pain-traffic-light/ ,
// https://ahpsuffolk.co.uk/Home/SelfHelp/ReturningtoActivity.aspx ,
// https://cairnhillphysiotherapy.co.nz/blog/how-much-pain-is-too-much-pain-during-exercise ,
// https://www.montyphysio.com.au/post/how-much-pain-is-acceptable-during-exercise-with-an-injury

export interface Leaflet {
  readonly name: 'three and five' | 'four and seven'
  readonly greenUpTo: number
  readonly amberUpTo: number
}

export const leaflets: readonly Leaflet[] = [
  { name: 'three and five', greenUpTo: 3, amberUpTo: 5 },
  { name: 'four and seven', greenUpTo: 4, amberUpTo: 7 },
]

/** A third kind counts from the baseline: a rise of three at most, and not worse the next morning. */
export const riseOverBaselineUpTo = 3

export const lights = ['green', 'amber', 'red'] as const

export function lightOf(pain: number, { greenUpTo, amberUpTo }: Leaflet): (typeof lights)[number] {
  if (pain <= greenUpTo) return 'green'
  return pain <= amberUpTo ? 'amber' : 'red'
}
