import { ratioOfMeans } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import type { ComparisonDesign } from '../comparison-design.js';
import { notEstimated } from '../not-estimated.js';
import { wallCount } from '../wall-groups.js';

/**
 * By how many percent the treated walls stand below the untreated walls in the after window: what pass marks against an
 * untreated reference are stated in. Fieller's limits of a ratio of means; blocks are not used. Absent without a pass mark.
 *
 * It stands beside the verdict and is not its margin: a mark is a share of the untreated walls' after mean, which is seen only
 * when the trial is over, and a margin must not come from the data it judges; and a mark passed by walls that were drier from
 * the start is no effect, while the verdict takes off what walls were before.
 *
 * @example reductionAgainstUntreated(trial, design)
 */
export function reductionAgainstUntreated({ protocol }: Trial, { walls }: ComparisonDesign): Answer | undefined {
  if (protocol.passMark === undefined) return undefined;
  const [id, label] = ['pass-mark', 'Reduction against the untreated walls'];
  const after = (side: 'treated' | 'untreated') => walls.filter((wall) => wall.side === side).map((wall) => wall.after);
  try {
    const { estimate, interval } = ratioOfMeans(after('treated'), after('untreated'), { level: protocol.confidence });
    const percent = (ratio: number) => 100 * (1 - ratio);
    return {
      kind: 'estimated',
      estimate: {
        ...{ id, label, unit: '%', estimate: percent(estimate) },
        ...(interval && {
          interval: { level: interval.level, lower: percent(interval.upper), upper: percent(interval.lower) },
        }),
        quantity: 'treated walls’ after mean below untreated walls’, in percent of the latter',
        method: 'ratio of means with Fieller’s limits',
        assumptions: ['walls are independent of each other', 'the outcome has a true zero'],
        walls: wallCount(walls),
      },
    };
  } catch (error) {
    return notEstimated(id, label, error, { 'out-of-range': 'the untreated walls’ mean cannot be told from zero' });
  }
}
