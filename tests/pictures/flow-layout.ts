import type { Point } from '@dagrejs/dagre'
import type { StateBox } from './flow-boxes.ts'

/** A box as it is drawn; its middle is given. */
export interface PlacedState extends StateBox {
  readonly id: string
  readonly x: number
  readonly y: number
}

/** From one box to another, by their ids. */
export interface Arrow {
  readonly from: string
  readonly to: string
  readonly label: readonly string[]
}

export interface PlacedArrow extends Arrow {
  /** The middle of the label. */
  readonly x: number
  readonly y: number
  readonly points: readonly Point[]
}

export interface FlowLayout {
  readonly width: number
  readonly height: number
  readonly states: readonly PlacedState[]
  readonly arrows: readonly PlacedArrow[]
}
