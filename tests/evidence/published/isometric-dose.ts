// Isometric training: Lum and Barbosa 2019, Int J Sports Med 40:363-375, a review [memory:medium]. The intensities are of
// the maximal contraction and come from limbs and trunk, not from necks.

interface Advised {
  readonly fraction: readonly [number, number]
  readonly holdSeconds: readonly [number, number]
  /** Under tension in one session. */
  readonly totalSeconds: readonly [number, number]
}

export const advised: Record<'strength' | 'size', Advised> = {
  strength: { fraction: [0.8, 1], holdSeconds: [1, 5], totalSeconds: [30, 90] },
  size: { fraction: [0.7, 0.75], holdSeconds: [3, 30], totalSeconds: [80, 150] },
}
