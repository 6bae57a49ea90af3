import {
  type Interval,
  isStatisticsError,
  type MeanComparison,
  mean,
  type StatisticsFault,
} from '../statistics/index.js';
import type { ComparisonDesign } from './comparison-design.js';
import { type ComparisonWords, comparisonWords } from './comparison-words.js';
import { type DifferenceMethod, differenceOfWalls } from './difference-of-walls.js';
import type { Estimate, WallCount } from './estimate.js';
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
      readonly reason: string;
      /** Mean change of treated less of untreated walls, where both have walls with a change. */
      readonly difference?: number;
      readonly walls: WallCount;
    };

export interface EstimateWithInterval extends Estimate {
  readonly interval: Interval;
}

/**
 * Step 3 of the primary analysis: the treated walls' change less the untreated walls' change, walls as the units,
 * or sites, blocks and stretches of wall where these were allocated. After values stand in for changes where a trial by lot was
 * never read before.
 *
 * Without blocks, the mean difference with Welch's interval; with pairs, Student's interval of the pair differences;
 * with other blocks, least squares of change on arm and block.
 *
 * @example primaryDifference(design, { level: 0.95, unit: '% by mass' }).estimate.estimate // -4.144
 * @source Welch 1947, Biometrika 34:28–35; Student 1908, Biometrika 6:1–25
 */
export function primaryDifference(design: ComparisonDesign, options: PrimaryOptions): Primary {
  try {
    return estimated(design, options);
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    return notEstimated(design, reasonWithoutInterval(design, error.fault));
  }
}

function estimated(design: ComparisonDesign, options: PrimaryOptions): Primary {
  const { level, unit } = options;
  if (design.kind === 'confounded') return notEstimated(design, 'no block holds both a treated and an untreated wall');
  const { method, result } = differenceOfWalls(design, ({ change }) => change, level);
  return { kind: 'estimated', method, estimate: asEstimate(method, result, design.walls, unit) };
}

type Wording = Pick<Estimate, 'label' | 'method' | 'assumptions'>;

const wordings: Readonly<Record<DifferenceMethod, (words: ComparisonWords) => Wording>> = {
  welch: ({ many, value, values }) => ({
    label: `Difference of ${values}`,
    method: `mean ${value} of treated ${many} less mean ${value} of untreated ${many}, interval by Welch’s t`,
    assumptions: [
      `${many} are independent of each other`,
      `${values} of ${many} in each arm are roughly normal, or the ${many} are many`,
      'the arms may differ in spread',
    ],
  }),
  'paired-blocks': ({ one, value, values }) => ({
    label: `Difference of ${values} inside pairs`,
    method: `mean over pairs of treated ${one}’s ${value} less its partner’s, interval by Student’s t`,
    assumptions: [
      'pairs are independent of each other',
      'differences of pairs are roughly normal, or the pairs are many',
    ],
  }),
  'block-model': ({ many, value, values }) => ({
    label: `Difference of ${values} inside blocks`,
    method: `least squares of ${value} on arm and block, interval by Student’s t`,
    assumptions: [
      `${many} are independent of each other, apart from their block`,
      'the effect is the same in every block',
      `${many} vary alike in both arms and roughly normally around their block`,
    ],
  }),
};

function asEstimate(
  method: DifferenceMethod,
  result: MeanComparison<string>,
  walls: readonly WallChange[],
  unit: string,
): EstimateWithInterval {
  const { estimate, interval, standardError, degreesOfFreedom, pValue } = result;
  const words = comparisonWords(walls);
  const wording = wordings[method](words);
  return {
    id: 'wall-change',
    quantity: `treated ${words.many}’ ${words.value} less untreated ${words.many}’ ${words.value}`,
    unit,
    estimate,
    interval,
    standardError,
    degreesOfFreedom,
    pValue,
    walls: wallCount(walls),
    ...wording,
    assumptions: [...wording.assumptions, ...words.taken],
  };
}

function notEstimated(design: ComparisonDesign, reason: string): Primary {
  const [treated, untreated] = [changesOn(design.walls, 'treated'), changesOn(design.walls, 'untreated')];
  const difference = treated.length > 0 && untreated.length > 0 ? { difference: mean(treated) - mean(untreated) } : {};
  return { kind: 'not-estimated', reason, ...difference, walls: wallCount(design.walls) };
}

function reasonWithoutInterval(design: ComparisonDesign, fault: StatisticsFault): string {
  const { one, many, value, values } = comparisonWords(design.walls);
  if (fault === 'no-variation')
    return `the ${values} do not vary between ${many} at all, as those of real ${many} always do`;
  const { treated, untreated } = wallCount(design.walls);
  const article = value === 'change' ? 'a' : 'an';
  const walls = `${treated} treated and ${untreated} untreated ${untreated === 1 ? one : many} with ${article} ${value}`;
  if (treated === 0 || untreated === 0) return `there are ${walls}`;
  switch (design.kind) {
    case 'pairs':
      return 'a single pair shows nothing of how pairs differ by themselves';
    case 'blocks':
      return `${walls} in ${new Set(design.walls.map(({ block }) => block)).size} blocks leave nothing over to judge chance by`;
    default:
      return `with ${walls}, nothing shows how ${many} treated alike differ by themselves`;
  }
}
