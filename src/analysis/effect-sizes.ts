import {
  glassDelta,
  hedgesG,
  isStatisticsError,
  logResponseRatio,
  pooledSpread,
  probabilityOfSuperiority,
  type StatisticsError,
  standardDeviation,
} from '../statistics/index.js';
import type { Answer } from './answer.js';
import type { ComparisonDesign } from './comparison-design.js';
import { type ComparisonWords, comparisonWords } from './comparison-words.js';
import type { Estimate } from './estimate.js';
import type { Primary } from './primary-difference.js';
import type { Side } from './wall-change.js';
import { changesOn, wallCount } from './wall-groups.js';

export interface EffectSizeOptions {
  readonly level: number;
  readonly better: 'lower' | 'higher';
}

type Measure = Pick<Estimate, 'id' | 'label' | 'quantity' | 'unit' | 'method' | 'assumptions'>;
type Size = Pick<Estimate, 'estimate'> & Required<Pick<Estimate, 'interval'>> & Pick<Estimate, 'standardError'>;

/**
 * The effect in sizes that can be set beside those of other trials. A negative g, delta or log ratio means that the
 * treated walls came out lower.
 *
 * @example effectSizes(design, primary, { level: 0.95, better: 'lower' })[0].estimate.estimate // -4.445
 */
export function effectSizes(design: ComparisonDesign, primary: Primary, options: EffectSizeOptions): readonly Answer[] {
  const { level, better } = options;
  const [treated, untreated] = [changesOn(design.walls, 'treated'), changesOn(design.walls, 'untreated')];
  const afterOn = (side: Side) => design.walls.filter((wall) => wall.side === side).map(({ after }) => after);
  const difference = (): number => {
    if (primary.kind === 'estimated') return primary.estimate.estimate;
    throw new NoAnswer(primary.reason);
  };
  const words = comparisonWords(design.walls);
  const answer = (measure: MeasureOf, compute: () => Size) => answered(measure(words), compute, design);
  return [
    answer(hedges, () => {
      const pooledSd = pooledSpread(treated, untreated).standardDeviation;
      return hedgesG({ difference: difference(), pooledSd, n1: treated.length, n2: untreated.length, level });
    }),
    answer(glass, () =>
      glassDelta({
        difference: difference(),
        untreatedSd: standardDeviation(untreated),
        treated: treated.length,
        untreated: untreated.length,
        level,
      }),
    ),
    answer(responseRatio, () => logResponseRatio(afterOn('treated'), afterOn('untreated'), { level })),
    answer(superiority, () => {
      const [ahead, behind] = better === 'lower' ? [treated, untreated] : [untreated, treated];
      requireTwoEach(treated, untreated);
      return probabilityOfSuperiority(ahead, behind, { level });
    }),
  ];
}

type MeasureOf = (words: ComparisonWords) => Measure;

const normalUnits = ({ many, values }: ComparisonWords) =>
  `${values} of ${many} are roughly normal in each arm and vary alike in both`;

const hedges: MeasureOf = (words) => ({
  id: 'hedges-g',
  label: 'Hedges’ g',
  quantity: `difference of ${words.values} in standard deviations between ${words.many}`,
  unit: 'standard deviations',
  method: `primary difference over the pooled standard deviation of ${words.values}, with the exact small-sample correction; limits from the noncentral t`,
  assumptions: [normalUnits(words), ...words.taken],
});

const glass: MeasureOf = (words) => ({
  id: 'glass-delta',
  label: 'Glass’s delta',
  quantity: `difference of ${words.values} in standard deviations between untreated ${words.many}`,
  unit: 'standard deviations',
  method: `primary difference over the standard deviation of the untreated ${words.many}’ ${words.values}; limits from the noncentral t`,
  assumptions: [normalUnits(words), ...words.taken],
});

const responseRatio: MeasureOf = ({ many, taken }) => ({
  id: 'log-response-ratio',
  label: 'Log response ratio',
  quantity: `natural logarithm of the treated over the untreated ${many}’ mean after value`,
  unit: 'log units',
  method: 'logarithm of the ratio of mean after values, delta-method interval with normal quantiles',
  assumptions: [
    'the arms started alike, for before values do not enter',
    `the ${many} are many enough for normal quantiles`,
    ...taken,
  ],
});

const superiority: MeasureOf = ({ one, many, value, taken }) => ({
  id: 'probability-of-superiority',
  label: 'Probability of superiority',
  quantity: `probability that a treated ${one}’s ${value} is better than an untreated ${one}’s`,
  unit: 'probability',
  method: `share of treated–untreated pairs of ${many} in which the treated ${one}’s ${value} is better, ties half; Newcombe’s interval, method 5`,
  assumptions: [`${many} are independent of each other; pairs and blocks are not used`, ...taken],
});

const tooFew = 'there are too few walls with a change in one of the arms';

/** Carries the reason to where the answer is put together. */
class NoAnswer extends Error {
  override readonly name = 'NoAnswer' as const;
}

/** A share of a single pair of walls is no probability, though its interval could be computed. */
function requireTwoEach(...sides: readonly (readonly number[])[]): void {
  if (sides.some(({ length }) => length < 2)) throw new NoAnswer(tooFew);
}

function answered(measure: Measure, compute: () => Size, { walls }: ComparisonDesign): Answer {
  try {
    const { estimate, interval, standardError } = compute();
    const error = standardError === undefined ? {} : { standardError };
    return { kind: 'estimated', estimate: { ...measure, estimate, interval, ...error, walls: wallCount(walls) } };
  } catch (error) {
    const { id, label } = measure;
    if (error instanceof NoAnswer) return { kind: 'not-estimated', notEstimated: { id, label, reason: error.message } };
    if (!isStatisticsError(error)) throw error;
    return { kind: 'not-estimated', notEstimated: { id, label, reason: reasonFor(error) } };
  }
}

function reasonFor({ fault }: StatisticsError): string {
  switch (fault) {
    case 'out-of-range':
      return 'a ratio needs positive mean values in both arms';
    case 'no-variation':
      return 'the walls do not vary, so there is no spread to measure by';
    default:
      return tooFew;
  }
}
