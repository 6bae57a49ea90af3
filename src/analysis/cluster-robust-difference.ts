import {
  clusterRobust,
  clusterRobustContrast,
  designMatrix,
  factor,
  intercept,
  leastSquares,
} from '../statistics/index.js';
import type { Answer } from './answer.js';
import type { ComparisonDesign } from './comparison-design.js';
import { comparisonWords } from './comparison-words.js';
import { nestedStations } from './nested-stations.js';
import { notEstimated } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import type { StationChange } from './wall-change.js';
import { wallCount } from './wall-groups.js';

const id = 'cluster-robust';
const label = 'Station-level regression, cluster-robust (CR2) by wall';

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
  const { one, many, value, values, taken } = comparisonWords(design.walls);
  const cluster = design.kind === 'pairs' ? 'pair' : one;
  const clusters = design.kind === 'pairs' ? 'pairs' : many;
  try {
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
        label,
        quantity: `treated ${many}’ ${value} less untreated ${many}’ ${value}, each station counting alike`,
        unit: options.unit,
        ...result,
        method: `least squares of the stations’ ${values} on arm${isBlocked ? ' and block' : ''}, cluster-robust error CR2 by ${cluster}, Bell and McCaffrey’s degrees of freedom`,
        assumptions: [
          `${clusters} are independent of each other; inside a ${cluster} stations may hang together in any way`,
          ...taken,
          ...(result.degreesOfFreedom < 4 ? ['do not trust it here: it rests on fewer than 4 degrees of freedom'] : []),
        ],
        walls: wallCount(design.walls),
      },
    };
  } catch (error) {
    return notEstimated(id, label, error);
  }
}
