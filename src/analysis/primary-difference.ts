import { orInstead } from '../plain/unless-refused.js';
import {
  type Interval,
  isStatisticsError,
  type MeanComparison,
  mean,
  type StatisticsFault,
} from '../statistics/index.js';
import { comparedIn } from './compared.js';
import type { ComparisonDesign } from './comparison-design.js';
import { type DifferenceMethod, differenceOfWalls } from './difference-of-walls.js';
import type { Estimate, WallCount } from './estimate.js';
import type { Reason } from './reason.js';
import type { WallChange } from './wall-change.js';
import { changesOn, wallCount } from './wall-groups.js';

/** `paired-series` judges two walls by themselves; the others judge walls as a sample. */
export type PrimaryMethod = DifferenceMethod | 'paired-series';

export interface PrimaryOptions {
  readonly level: number;
  readonly unit: string;
}

/** The primary difference with its interval, or why the design allows none and what could still be computed. */
export type Primary =
  | { readonly kind: 'estimated'; readonly method: PrimaryMethod; readonly estimate: EstimateWithInterval }
  | {
      readonly kind: 'not-estimated';
      readonly reason: Reason;
      /** Mean change of treated less of untreated walls, where both have walls with a change. */
      readonly difference?: number;
      readonly walls: WallCount;
    };

export interface EstimateWithInterval extends Estimate {
  readonly interval: Interval;
}

/**
 * Step 3 of the primary analysis: the treated walls' change less the untreated walls' change, walls as the units,
 * or sites, blocks and stretches of wall where these were allocated. After values stand in for changes where a randomised trial was
 * never read before.
 *
 * Without blocks, the mean difference with Welch's interval; with pairs, Student's interval of the pair differences;
 * with other blocks, least squares of change on arm and block.
 *
 * @example primaryDifference(design, { level: 0.95, unit: '% by mass' }).estimate.estimate // -4.144
 * @source Welch 1947, Biometrika 34:28–35; Student 1908, Biometrika 6:1–25
 */
export function primaryDifference(design: ComparisonDesign, options: PrimaryOptions): Primary {
  return orInstead(
    isStatisticsError,
    () => estimated(design, options),
    (error) => notEstimated(design, reasonWithoutInterval(design, error.fault)),
  );
}

function estimated(design: ComparisonDesign, options: PrimaryOptions): Primary {
  const { level, unit } = options;
  if (design.kind === 'confounded') return notEstimated(design, { code: 'no-mixed-block' });
  const { method, result } = differenceOfWalls(design, ({ change }) => change, level);
  return { kind: 'estimated', method, estimate: asEstimate(method, result, design.walls, unit) };
}

function asEstimate(
  method: DifferenceMethod,
  result: MeanComparison<string>,
  walls: readonly WallChange[],
  unit: string,
): EstimateWithInterval {
  const { estimate, interval, standardError, degreesOfFreedom, pValue } = result;
  return {
    id: 'wall-change',
    unit,
    estimate,
    interval,
    standardError,
    degreesOfFreedom,
    pValue,
    method: { kind: method, compared: comparedIn(walls) },
    walls: wallCount(walls),
  };
}

function notEstimated(design: ComparisonDesign, reason: Reason): Primary {
  const [treated, untreated] = [changesOn(design.walls, 'treated'), changesOn(design.walls, 'untreated')];
  const difference = treated.length > 0 && untreated.length > 0 ? { difference: mean(treated) - mean(untreated) } : {};
  return { kind: 'not-estimated', reason, ...difference, walls: wallCount(design.walls) };
}

function reasonWithoutInterval(design: ComparisonDesign, fault: StatisticsFault): Reason {
  const compared = comparedIn(design.walls);
  if (fault === 'no-variation') return { code: 'units-do-not-vary', compared };
  const counts = wallCount(design.walls);
  if (counts.treated === 0 || counts.untreated === 0) return { code: 'empty-side', compared, counts };
  switch (design.kind) {
    case 'pairs':
      return { code: 'single-pair' };
    case 'blocks': {
      const blocks = new Set(design.walls.map(({ block }) => block)).size;
      return { code: 'no-degrees-of-freedom', compared, counts, blocks };
    }
    default:
      return { code: 'no-replication', compared, counts };
  }
}
