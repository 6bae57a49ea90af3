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
import type { ComparisonDesign } from './comparison-design.js';
import { comparisonWords, nothingReadBefore } from './comparison-words.js';
import { notEstimated } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import { wallCount } from './wall-groups.js';

const id = 'baseline-adjusted';
const label = 'Baseline-adjusted (ANCOVA)';

/**
 * Treated less untreated after value among walls with the same before value: least squares of after on arm, before and,
 * where the design has them, blocks. It takes account of regression to the mean, which a comparison of changes does not.
 *
 * @example baselineAdjusted(design, { level: 0.95, unit: '% by mass' }).estimate.estimate // -4.133
 */
export function baselineAdjusted(design: ComparisonDesign, options: PrimaryOptions): Answer {
  const { walls } = design;
  const { many, taken } = comparisonWords(walls);
  const before = walls.flatMap((wall) => wall.before ?? []);
  if (before.length < walls.length)
    return { kind: 'not-estimated', notEstimated: { id, label, reason: nothingReadBefore } };
  try {
    const fit = leastSquares(
      designMatrix(termsOf(design, before)),
      walls.map(({ after }) => after),
    );
    const { statistic: _, ...result } = contrast(fit, { 'arm: treated': 1 }, { level: options.level });
    return {
      kind: 'estimated',
      estimate: {
        id,
        label,
        quantity: `treated ${many}’ after value less untreated ${many}’ at the same before value`,
        unit: options.unit,
        ...result,
        method: `least squares of after on arm, before${hasBlocks(design) ? ' and block' : ''}, interval by Student’s t`,
        assumptions: [
          `${many} are independent of each other, apart from their block`,
          'the after value rises in a straight line with the before value, with the same slope in both arms',
          `${many} vary alike in both arms and roughly normally around that line`,
          ...taken,
        ],
        walls: wallCount(walls),
      },
    };
  } catch (error) {
    return notEstimated(id, label, error, {
      collinear: 'the before values, or the blocks, cannot be distinguished from the arms',
      'no-variation': 'the before or after values do not vary between walls',
    });
  }
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
