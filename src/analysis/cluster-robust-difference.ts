import {
  clusterRobust,
  clusterRobustContrast,
  designMatrix,
  factor,
  intercept,
  leastSquares,
} from '../statistics/index.js';
import type { Answer } from './answer.js';
import { comparedIn } from './compared.js';
import type { ComparisonDesign } from './comparison-design.js';
import { nestedStations } from './nested-stations.js';
import { estimatedUnlessRefused } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import type { StationChange } from './wall-change.js';
import { wallCount } from './wall-groups.js';

const id = 'cluster-robust';
/** Fewer degrees of freedom than these are too few for the correction to hold (Tipton 2015, Psychol. Methods 20:375-393, from memory). */
const fewestDegrees = 4;

/**
 * The difference of changes by least squares over all stations, with blocks where the design has them, and an error that
 * holds whatever the correlation inside a wall: CR2 with Bell and McCaffrey's degrees of freedom. In pairs the pair is the
 * cluster, since its two walls share what the pair has in common.
 *
 * @example clusterRobustDifference(design, changes.stations, { level: 0.95, unit: '% by mass' }).estimate.degreesOfFreedom // 11.0
 */
export function clusterRobustDifference(
  design: ComparisonDesign,
  stations: readonly StationChange[],
  options: PrimaryOptions,
): Answer {
  const nested = nestedStations(design, stations);
  const isBlocked = design.kind === 'pairs' || design.kind === 'blocks';
  return estimatedUnlessRefused({ id }, () => {
    const blocks = nested.map(({ block }) => block);
    const terms = [
      intercept(),
      factor(
        'arm',
        nested.map(({ side }) => side),
        { reference: 'untreated' },
      ),
      ...(isBlocked ? [factor('block', blocks, { reference: blocks[0] ?? '' })] : []),
    ];
    const fit = leastSquares(
      designMatrix(terms),
      nested.map(({ change }) => change),
    );
    const clusterOfRow = design.kind === 'pairs' ? blocks : nested.map(({ unit }) => unit);
    const { statistic: _, ...result } = clusterRobustContrast(
      clusterRobust(fit, clusterOfRow),
      { 'arm: treated': 1 },
      { level: options.level },
    );
    return {
      kind: 'estimated',
      estimate: {
        id,
        unit: options.unit,
        ...result,
        method: {
          kind: id,
          compared: comparedIn(design.walls),
          isBlocked,
          cluster: design.kind === 'pairs' ? 'pair' : 'unit',
          // Three walls an arm have 4, whatever rounding makes of it.
          isWeak: result.degreesOfFreedom < (1 - 1e-9) * fewestDegrees,
        },
        walls: wallCount(design.walls),
      },
    };
  });
}
