// What a plan does over the weeks, for a therapist: the dose's way up and down the chain, pain, and every decision.
import type { DecisionKind } from '#src/domain/decision.ts'
import type { Direction } from '#src/domain/direction.ts'
import type { Pain } from '#src/domain/set-report.ts'

/** One rung on the axis of places. */
export interface PictureRung {
  readonly name: string
  /** Its first and last place in the chain. */
  readonly from: number
  readonly to: number
}

export interface PictureDose {
  readonly day: number
  /** Index in the chain. */
  readonly place: number
  readonly rung: number
  /** Short: `5 × 6 s, push 3`. */
  readonly text: string
}

export interface PicturePain {
  readonly day: number
  readonly pain: Pain
}

export interface PicturePanel {
  readonly direction: Direction
  readonly name: string
  readonly rungs: readonly PictureRung[]
  /** One for every session in which the direction was prescribed. */
  readonly doses: readonly PictureDose[]
  /** The worst of a session's sets. */
  readonly pains: readonly PicturePain[]
  readonly decisions: readonly { readonly day: number; readonly kind: DecisionKind; /** The reasons, in words. */ readonly why: string }[]
}

/** No session until the therapist had cleared it. */
export interface PictureLock {
  readonly from: number
  readonly to: number
}

export interface PictureWords {
  readonly place: string
  readonly worstPain: string
  readonly decided: string
  readonly locked: string
  readonly before: string
  readonly morning: string
  readonly trained: string
  readonly missed: string
  readonly days: string
  readonly wholeClient: string
  readonly week: string
  readonly comfortable: string
  readonly amber: string
  readonly red: string
  readonly decisions: Readonly<Record<DecisionKind, string>>
}

export interface PlanPicture {
  readonly title: string
  /** What it is and what it is not, a line each. */
  readonly notes: readonly string[]
  readonly weeks: number
  readonly panels: readonly PicturePanel[]
  readonly before: readonly PicturePain[]
  readonly mornings: readonly PicturePain[]
  readonly trainedOn: readonly number[]
  readonly missedOn: readonly number[]
  readonly locks: readonly PictureLock[]
  /** The highest comfortable and the highest amber pain. */
  readonly limits: { readonly comfortable: Pain; readonly amber: Pain }
  readonly words: PictureWords
}
