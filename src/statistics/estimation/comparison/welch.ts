import { checkLevel, checkSample } from '../../checked-input.js';
import { momentsOf } from '../summaries/moments.js';
import { judgedByT, type LevelOption, type MeanComparison } from './mean-comparison.js';

/**
 * Difference of two means, x less y, where the groups may differ in spread. Use it by default for two independent groups.
 *
 * Standard error sqrt(vx/nx + vy/ny); degrees of freedom by Welch and Satterthwaite (Welch 1947, Biometrika 34:28-35).
 *
 * @throws StatisticsError `too-few` with fewer than two values in a group, `no-variation` when neither group varies
 * @example welch([-3.1, -1.8, -2.6, -2.2], [-1.2, -2.0, -0.6, -1.4]).estimate // -1.125
 */
export function welch(x: readonly number[], y: readonly number[], options: LevelOption = {}): MeanComparison<'welch'> {
  const level = options.level ?? 0.95;
  checkLevel('welch', level);
  checkSample('welch', 'x', x, 2);
  checkSample('welch', 'y', y, 2);
  const first = momentsOf(x);
  const second = momentsOf(y);
  const ofFirst = first.variance / first.n;
  const ofSecond = second.variance / second.n;
  // Shares rather than squared variances: those would overflow or vanish for very large or small units.
  const share = ofFirst / (ofFirst + ofSecond);
  return judgedByT({
    kind: 'welch',
    estimate: first.mean - second.mean,
    standardError: Math.sqrt(ofFirst + ofSecond),
    degreesOfFreedom: 1 / (share ** 2 / (first.n - 1) + (1 - share) ** 2 / (second.n - 1)),
    level,
    n: { x: first.n, y: second.n },
  });
}
