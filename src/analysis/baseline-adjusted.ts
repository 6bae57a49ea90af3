import {
  contrast,
  covariate,
  type DesignTerm,
  designMatrix,
  factor,
  intercept,
  leastSquares,
  mean,
} from '../statistics/index.js';
import type { Answer } from './answer.js';
import { comparedIn } from './compared.js';
import type { ComparisonDesign } from './comparison-design.js';
import { estimatedUnlessRefused, refused } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import { wallCount } from './wall-groups.js';

const id = 'baseline-adjusted';

/**
 * Treated less untreated after value among walls with the same before value: least squares of after on arm, before and,
 * where the design has them, blocks. It takes account of regression to the mean, which a comparison of changes does not.
 *
 * @example baselineAdjusted(design, { level: 0.95, unit: '% by mass' }).estimate.estimate // -4.133
 */
export function baselineAdjusted(design: ComparisonDesign, options: PrimaryOptions): Answer {
  const { walls } = design;
  const before = walls.flatMap((wall) => wall.before ?? []);
  if (before.length < walls.length) return refused({ id }, { code: 'no-before' });
  return estimatedUnlessRefused(
    { id },
    () => {
      const fit = leastSquares(
        designMatrix(termsOf(design, before)),
        walls.map(({ after }) => after),
      );
      const { statistic: _, ...result } = contrast(fit, { 'arm: treated': 1 }, { level: options.level });
      return {
        kind: 'estimated',
        estimate: {
          id,
          unit: options.unit,
          ...result,
          method: { kind: id, compared: comparedIn(walls), isBlocked: hasBlocks(design) },
          walls: wallCount(walls),
        },
      };
    },
    {
      collinear: { code: 'before-is-arm' },
      'no-variation': { code: 'before-or-after-do-not-vary' },
    },
  );
}

function termsOf(design: ComparisonDesign, before: readonly number[]): readonly DesignTerm[] {
  const { walls } = design;
  const centre = mean(before);
  const common = [
    intercept(),
    factor(
      'arm',
      walls.map(({ side }) => side),
      { reference: 'untreated' },
    ),
    covariate(
      'before',
      before.map((value) => value - centre),
    ),
  ];
  if (!hasBlocks(design)) return common;
  const blocks = walls.map(({ block }) => block);
  return [...common, factor('block', blocks, { reference: blocks[0] ?? '' })];
}

function hasBlocks(design: ComparisonDesign): boolean {
  return design.kind === 'pairs' || design.kind === 'blocks';
}
