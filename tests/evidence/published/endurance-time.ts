// Rohmert 1960: how long a share of the maximum can be held; coefficients [memory:medium], general and not of the neck.
// Frey Law 2010, Ergonomics 53:109-129 [found]: the curve differs from joint to joint and none is of the neck. So it may
// guide, and nothing is ever gated on it.

/** Seconds to exhaustion at a fraction of the maximum, 0.15 to 1. */
export function enduranceSeconds(fraction: number): number {
  if (fraction < 0.15 || fraction > 1) throw new RangeError('the curve was drawn for 15 to 100 % of the maximum')
  return 60 * (-1.5 + 2.1 / fraction - 0.6 / fraction ** 2 + 0.1 / fraction ** 3)
}
