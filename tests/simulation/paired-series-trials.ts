import { type SeriesOfWalls, seriesChecks, type WallChange } from '../../src/analysis/index.js';
import { addDays } from '../../src/plain/days.js';
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
  /** Height of a yearly wave, visits a fortnight apart, as where one wall swings further with the seasons than the other. */
  readonly season?: number;
  /** How far the walls come apart by themselves, evenly from the first visit to the last. */
  readonly drift?: number;
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

/** Without a change: an interval that holds the truth includes zero. */
const visitsInYear = 26;

function seriesOf(stream: RandomStream, cell: SeriesCell): SeriesRegression {
  const { visits, correlation, noise, season = 0, drift = 0 } = cell;
  const times = Array.from({ length: 2 * visits }, (_, at) => at);
  const shocks = normalDraws(stream, times.length);
  const scatter = normalDraws(stream, times.length);
  let carried = 0;
  const response = times.map((at) => {
    carried = at === 0 ? shocks[0]! : correlation * carried + Math.sqrt(1 - correlation ** 2) * shocks[at]!;
    const wave = season * Math.cos((2 * Math.PI * at) / visitsInYear);
    return carried + noise * scatter[at]! + wave + (drift * at) / (times.length - 1);
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
  readonly checks: ChecksCount;
}

/** What the checks of the opinion say against series in which nothing happened; none where the series is too short for them. */
interface ChecksCount {
  readonly series: number;
  /** Placebo dates tried, and those with an alarm. */
  readonly dates: number;
  readonly alarms: number;
  /** Series whose smallest p-value of a placebo date, times their number, is below 0.05: a weakness. */
  readonly plainAlarms: number;
  /** Series that seem to drift before the treatment. */
  readonly drifting: number;
}

export const firstTrials = 20;
/** Of every so many trials one is checked as the opinion does, which takes as long as many trials. */
const checkedEvery = 4;

/** How often each method's 95 % interval holds the truth, and how often a check speaks against series without a fault. */
export function countSeries(cell: SeriesCell, trials: number): SeriesCount {
  const stream = randomStream(cell.seed);
  const counts = seriesMethods.map(() => ({ intervals: 0, held: 0, heldAtFirst: 0, halfWidths: 0 }));
  const checks = { series: 0, dates: 0, alarms: 0, plainAlarms: 0, drifting: 0 };
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
    const found = number % checkedEvery > 0 ? undefined : seriesChecks(asOfWalls(series), { level: 0.95 });
    if (found === undefined) continue;
    const { placebo, placeboPValue, trendPer30Days } = found;
    checks.series++;
    checks.dates += placebo.length;
    checks.alarms += placebo.filter(({ isAlarm }) => isAlarm).length;
    checks.plainAlarms += Number(placeboPValue < 0.05);
    checks.drifting += Number(trendPer30Days.interval.lower > 0 || trendPer30Days.interval.upper < 0);
  }
  const methods = seriesMethods.map(({ id, label }, k) => {
    const { intervals, held, heldAtFirst, halfWidths } = counts[k]!;
    return { id, label, intervals, held, heldAtFirst, meanHalfWidth: halfWidths / Math.max(1, intervals) };
  });
  return { trials, methods, checks };
}

const noWall: WallChange = {
  wall: '',
  arm: '',
  side: 'treated',
  block: '',
  before: 0,
  after: 0,
  change: 0,
  stations: 1,
  places: 'same',
};

/** A visit a week. */
function asOfWalls({ response }: SeriesRegression): SeriesOfWalls {
  const visits = response.map((difference, at) => ({
    day: addDays('2024-01-01', 7 * at),
    time_d: 7 * at,
    window: at < response.length / 2 ? ('before' as const) : ('after' as const),
    difference,
  }));
  return { treated: noWall, untreated: noWall, visits, visitsApart: 0, matchedPlaces: 0 };
}

function tried(interval: () => Interval): Interval | undefined {
  try {
    return interval();
  } catch (error) {
    if (isStatisticsError(error)) return undefined;
    throw error;
  }
}
