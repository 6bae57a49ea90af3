/**
 * A probability distribution, every function of it synchronous and exact to about 1e-12 relative unless its own
 * documentation says otherwise.
 *
 * Both tails are computed directly, never as one minus the other where that would cancel, so small probabilities keep
 * their digits. `lowerTail(x)` is the probability of a value at most x, `upperTail(x)` of a value above x.
 * `quantile(p)` inverts the lower tail and `upperQuantile(q)` the upper one. At probability 0 or 1 a quantile is the
 * end of the support, which is infinite where the support is.
 *
 * All throw `StatisticsError`: 'not-finite' for NaN, 'out-of-range' for a probability outside 0 to 1.
 */
export interface Distribution {
  /** Density at x; for a discrete distribution, the probability of exactly x. */
  density(x: number): number;
  lowerTail(x: number): number;
  upperTail(x: number): number;
  quantile(p: number): number;
  upperQuantile(q: number): number;
}
