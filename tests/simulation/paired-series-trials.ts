import {
  type AveragedContrast,
  autoregressiveContrast,
  autoregressiveLeastSquares,
  averagedContrast,
  contrast,
  type Interval,
  isStatisticsError,
  leastSquares,
  neweyWestContrast,
  normalDraws,
  placeboDates,
  type RandomStream,
  randomStream,
  type SeriesRegression,
  stepDesign,
} from '../../src/statistics/index.js';

/** A series of differences of two walls: so many visits before and after, neighbours correlated, and sometimes noise on top. */
export interface SeriesCell {
  readonly visits: number;
  readonly correlation: number;
  /** Standard deviation of noise that dies at once, that of the correlated part being 1. */
  readonly noise: number;
  readonly seed: number;
}

export interface SeriesMethod {
  readonly id: string;
  readonly label: string;
  readonly interval: (series: SeriesRegression) => Interval;
}

const neweyWestSeed = 20050101;

/** Averaging over the autocorrelation comes first: it is what the opinion uses. */
export const seriesMethods: readonly SeriesMethod[] = [
  { id: 'averaged', label: 'Averaged over the autocorrelation', interval: (series) => averaged(series).interval },
  { id: 'best-fitting', label: 'Best-fitting autocorrelation, Kenward and Roger', interval: bestFitting },
  { id: 'newey-west', label: 'Newey and West, bandwidth half the series', interval: neweyWest },
  { id: 'naive', label: 'Naive: visits taken as independent', interval: independent },
];

function averaged(series: SeriesRegression): AveragedContrast {
  return averagedContrast(series, { step: 1 });
}

function bestFitting(series: SeriesRegression): Interval {
  return autoregressiveContrast(autoregressiveLeastSquares(series), { step: 1 }).interval;
}

const criticalValues = new Map<number, number>();

/** The critical value depends on the design alone, so that it is drawn once. */
function neweyWest({ design, response }: SeriesRegression): Interval {
  const visits = response.length;
  const known = criticalValues.get(visits);
  const options = { seed: neweyWestSeed, ...(known === undefined ? {} : { draws: 20 }) };
  const { estimate, standardError, criticalValue } = neweyWestContrast(design, response, { step: 1 }, options);
  if (known === undefined) criticalValues.set(visits, criticalValue);
  const reach = (known ?? criticalValue) * standardError;
  return { level: 0.95, lower: estimate - reach, upper: estimate + reach };
}

function independent({ design, response }: SeriesRegression): Interval {
  return contrast(leastSquares(design, response), { step: 1 }).interval;
}

/** Without a change: an interval that holds the truth holds zero. */
function seriesOf(stream: RandomStream, { visits, correlation, noise }: SeriesCell): SeriesRegression {
  const times = Array.from({ length: 2 * visits }, (_, at) => at);
  const shocks = normalDraws(stream, times.length);
  const scatter = normalDraws(stream, times.length);
  let carried = 0;
  const response = times.map((at) => {
    carried = at === 0 ? shocks[0]! : correlation * carried + Math.sqrt(1 - correlation ** 2) * shocks[at]!;
    return carried + noise * scatter[at]!;
  });
  return { design: stepDesign(times.map((at) => (at < visits ? 0 : 1))), response, times };
}

interface SeriesCoverage {
  readonly id: string;
  readonly label: string;
  readonly intervals: number;
  readonly held: number;
  readonly heldAtFirst: number;
  readonly meanHalfWidth: number;
}

export interface SeriesCount {
  readonly trials: number;
  readonly methods: readonly SeriesCoverage[];
  /** Series whose before half was searched for changes that were never made, and what was found there. */
  readonly placebo: {
    readonly series: number;
    readonly dates: number;
    readonly alarms: number;
    readonly overAFifth: number;
  };
}

export const firstTrials = 20;
/** Of every so many trials one is searched for placebo dates, which takes as long as many trials. */
const placeboEvery = 10;

/** How often each method's 95 % interval holds the truth, and how often placebo dates raise an alarm. */
export function countSeries(cell: SeriesCell, trials: number): SeriesCount {
  const stream = randomStream(cell.seed);
  const counts = seriesMethods.map(() => ({ intervals: 0, held: 0, heldAtFirst: 0, halfWidths: 0 }));
  const placebo = { series: 0, dates: 0, alarms: 0, overAFifth: 0 };
  for (let number = 0; number < trials; number++) {
    const series = seriesOf(stream, cell);
    for (const [k, { interval: intervalOf }] of seriesMethods.entries()) {
      const interval = tried(() => intervalOf(series));
      if (interval === undefined) continue;
      const count = counts[k]!;
      const holds = Number(interval.lower <= 0 && interval.upper >= 0);
      count.intervals++;
      count.held += holds;
      if (number < firstTrials) count.heldAtFirst += holds;
      count.halfWidths += (interval.upper - interval.lower) / 2;
    }
    if (number % placeboEvery > 0) continue;
    const dates = placeboDates(series.response.slice(0, cell.visits), series.times.slice(0, cell.visits));
    const alarms = dates.filter(({ isAlarm }) => isAlarm).length;
    placebo.series++;
    placebo.dates += dates.length;
    placebo.alarms += alarms;
    placebo.overAFifth += Number(alarms / dates.length > 0.2);
  }
  const methods = seriesMethods.map(({ id, label }, k) => {
    const { intervals, held, heldAtFirst, halfWidths } = counts[k]!;
    return { id, label, intervals, held, heldAtFirst, meanHalfWidth: halfWidths / Math.max(1, intervals) };
  });
  return { trials, methods, placebo };
}

function tried(interval: () => Interval): Interval | undefined {
  try {
    return interval();
  } catch (error) {
    if (isStatisticsError(error)) return undefined;
    throw error;
  }
}
