import { designMatrix, leastSquares, ratioOfEstimates } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import type { ComparisonDesign } from '../comparison-design.js';
import { estimatedUnlessRefused, refused } from '../not-estimated.js';
import { wallCount } from '../wall-groups.js';
import { type StandInWall, sideAndBlock, standInChange } from './stand-in-walls.js';

/**
 * Share of the effect on moisture that goes with the stand-in: the slope inside arms (and blocks) times the effect on the
 * stand-in, over the effect on moisture, which is 1 less the adjusted over the unadjusted effect (Freedman, Graubard and Schatzkin
 * 1992, Stat. Med. 11:167-178, from memory). Walls are the units, inside their pairs or blocks where there are any.
 *
 * The limits are Fieller's: the slope varies apart from both effects, and the effects with the covariance that residuals of walls
 * show. Not estimated where the effect on moisture cannot be distinguished from none, for then no finite interval holds the share.
 *
 * @example shareExplained(trial, design).kind
 */
export function shareExplained({ protocol }: Trial, design: ComparisonDesign<StandInWall>): Answer {
  const id = 'share-explained';
  const { walls } = design;
  return estimatedUnlessRefused(
    { id },
    () => {
      const { numerator, ...pair } = productOverEffect(design);
      const { estimate, interval, degreesOfFreedom } = ratioOfEstimates(
        { numerator, ...pair },
        { level: protocol.confidence },
      );
      if (interval === undefined) return refused({ id }, { code: 'no-effect-to-share' });
      const isBlocked = design.kind === 'pairs' || design.kind === 'blocks';
      return {
        kind: 'estimated',
        estimate: {
          ...{ id, unit: 'share of the effect', estimate, interval, degreesOfFreedom },
          method: { kind: id, isBlocked },
          walls: wallCount(walls),
        },
      };
    },
    {
      collinear: { code: 'arms-like-blocks' },
      'no-variation': { code: 'stand-in-alike' },
      'out-of-range': { code: 'no-effect' },
    },
  );
}

function productOverEffect(design: ComparisonDesign<StandInWall>) {
  const columns = designMatrix(sideAndBlock(design));
  const moisture = leastSquares(
    columns,
    design.walls.map(({ change }) => change),
  );
  const standIn = leastSquares(columns, design.walls.map(standInChange));
  const at = columns.columns.findIndex(({ name }) => name === 'side: treated');
  const scale = moisture.unscaledCovariance[at * moisture.rank + at] ?? 0;
  const effectOf = ({ coefficients }: typeof moisture) => coefficients[at]?.estimate ?? 0;
  const crossed = standIn.residuals.reduce((sum, own, row) => sum + own * (moisture.residuals[row] ?? 0), 0);
  const slope = crossed / standIn.residualSumOfSquares;
  // One more degree of freedom goes into the slope.
  const degreesOfFreedom = moisture.degreesOfFreedom - 1;
  const aboutLine = Math.max(0, moisture.residualSumOfSquares - slope * crossed);
  const slopeVariance = aboutLine / degreesOfFreedom / standIn.residualSumOfSquares;
  const effectOnStandIn = effectOf(standIn);
  return {
    numerator: slope * effectOnStandIn,
    denominator: effectOf(moisture),
    numeratorVariance: effectOnStandIn ** 2 * slopeVariance + slope ** 2 * scale * standIn.residualVariance,
    denominatorVariance: scale * moisture.residualVariance,
    covariance: slope * scale * (crossed / moisture.degreesOfFreedom),
    degreesOfFreedom,
  };
}
