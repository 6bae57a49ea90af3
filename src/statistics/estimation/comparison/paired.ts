import { checkLevel, checkSample } from '../../checked-input.js';
import { momentsOf } from '../summaries/moments.js';
import { judgedByT, type LevelOption, type MeanComparison } from './mean-comparison.js';

/**
 * Mean of the differences inside pairs, judged by Student's t with one degree of freedom fewer than pairs.
 *
 * @param differences one per pair, x less y
 * @throws StatisticsError `too-few` with fewer than two pairs, `no-variation` when all differ alike
 * @example paired([-1.2, -0.4, -2.0]).estimate // -1.2
 */
export function paired(differences: readonly number[], options: LevelOption = {}): MeanComparison<'paired'> {
  const level = options.level ?? 0.95;
  checkLevel('paired', level);
  checkSample('paired', 'differences', differences, 2);
  const { n, mean, variance } = momentsOf(differences);
  return judgedByT({
    kind: 'paired',
    estimate: mean,
    standardError: Math.sqrt(variance / n),
    degreesOfFreedom: n - 1,
    level,
    n: { x: n, y: n },
  });
}
