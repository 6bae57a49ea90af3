import { type Primary, pairedSeriesIntervals, type SeriesOfWalls } from '../../analysis/index.js';
import { type Interval, studentT } from '../../statistics/index.js';

/** Every difference that could be put to the test, with its two-sided p-value; and the intervals that lie under the curve. */
export interface ConfidenceCurve {
  /** Where the p-value is 1. */
  readonly estimate: number;
  /** From the lowest value up; the curve ends where the widest interval does. */
  readonly points: readonly { readonly value: number; readonly pValue: number }[];
  /** At 50 %, 80 % and the level of the plan, the narrowest first. */
  readonly intervals: readonly Interval[];
}

/** Levels at which the curve is drawn: close where it bends, and as far out as a picture shows. */
const drawnLevels = [
  ...Array.from({ length: 16 }, (_, at) => (at + 1) / 20),
  0.84,
  0.87,
  0.9,
  0.92,
  0.94,
  0.96,
  0.975,
  0.985,
  0.99,
  0.995,
];
const shownLevels = [0.5, 0.8] as const;

/** The curve must pass through the interval that was answered; rounding alone may part them. */
const roundingOnly = 1e-9;

/**
 * The confidence curve of the primary answer: all its central intervals at once, or the two-sided p-value against each value that the
 * difference could have. Where walls were compared it is Student's t with the answer's own standard error and degrees of freedom (Welch's,
 * those of the pairs, or those that blocks leave); where two walls were followed it is made of that method's own intervals. Undefined
 * where there is no answer, or where the curve would miss the interval that was answered.
 *
 * @param series the walls' visits, where the answer came from them
 * @example confidenceCurve(primary).points.find(({ pValue }) => pValue === 1).value // -4.144
 * @source Birnbaum 1961, Journal of the American Statistical Association 56:246–249
 */
export function confidenceCurve(primary: Primary, series?: SeriesOfWalls): ConfidenceCurve | undefined {
  if (primary.kind === 'not-estimated') return undefined;
  const { estimate, interval } = primary.estimate;
  const shown = [...shownLevels.filter((level) => level < interval.level), interval.level];
  const levels = [...new Set([...drawnLevels, ...shown])].sort((one, other) => one - other);
  const drawn = intervalsAt(levels, primary, series);
  const answered = drawn.find(({ level }) => level === interval.level);
  if (answered === undefined || !isSame(answered, interval)) return undefined;
  return {
    estimate,
    points: [
      ...drawn.toReversed().map(({ level, lower }) => ({ value: lower, pValue: 1 - level })),
      { value: estimate, pValue: 1 },
      ...drawn.map(({ level, upper }) => ({ value: upper, pValue: 1 - level })),
    ],
    intervals: drawn.filter(({ level }) => shown.includes(level)),
  };
}

/** Nothing where the answer does not offer them. */
function intervalsAt(
  levels: readonly number[],
  { method, estimate: answer }: Extract<Primary, { kind: 'estimated' }>,
  series: SeriesOfWalls | undefined,
): readonly Interval[] {
  const { estimate, standardError, degreesOfFreedom } = answer;
  if (method === 'paired-series') return series === undefined ? [] : pairedSeriesIntervals(series, levels);
  if (standardError === undefined || degreesOfFreedom === undefined) return [];
  const t = studentT(degreesOfFreedom);
  return levels.map((level) => {
    const half = t.upperQuantile((1 - level) / 2) * standardError;
    return { level, lower: estimate - half, upper: estimate + half };
  });
}

function isSame(one: Interval, other: Interval): boolean {
  const width = other.upper - other.lower;
  return Math.max(Math.abs(one.lower - other.lower), Math.abs(one.upper - other.upper)) <= roundingOnly * width;
}
