import { compareWalls, type DryingObservation, dryingRateRatio } from '../../src/analysis/index.js';
import { fitDryingModel, isDryingError, meanCurve } from '../../src/drying/index.js';
import {
  type Interval,
  isStatisticsError,
  nonlinearLeastSquares,
  normalDraws,
  type RandomStream,
  randomStream,
} from '../../src/statistics/index.js';

export type DryingDesign = 'complete' | 'pairs';

/** Treated walls dry at one and a half times the rate of untreated ones. */
const trueRatio = 1.5;
const untreatedRate = 0.012;
const days = Array.from({ length: 12 }, (_, visit) => 27 * visit);
const spread = { pairs: 0.2, walls: 0.25, lost: 1.5, dry: 1, stations: 0.8, visits: 0.2, readings: 0.4 };

/** Walls that dry along exponentials at rates of their own, three stations each, read twelve times in 297 days. */
function dryingTrial(stream: RandomStream, walls: number, design: DryingDesign): readonly DryingObservation[] {
  const perWall = 3 + 3 + days.length * 4;
  const draws = normalDraws(stream, walls * perWall + walls);
  let next = 0;
  const draw = (deviation: number) => deviation * draws[next++]!;
  const ofPairs = Array.from({ length: walls / 2 }, () => draw(spread.pairs));
  return Array.from({ length: walls }, (_, w) => {
    const isTreated = w % 2 === 0;
    const pair = Math.floor(w / 2);
    const side = isTreated ? ('treated' as const) : ('untreated' as const);
    const own = draw(spread.walls) + (design === 'pairs' ? ofPairs[pair]! : 0);
    const rate = untreatedRate * (isTreated ? trueRatio : 1) * Math.exp(own);
    const [lost, dry] = [7 + draw(spread.lost), 4 + draw(spread.dry)];
    const stations = ['low', 'middle', 'high'].map((station) => ({ station, offset: draw(spread.stations) }));
    return days.flatMap((time_d) => {
      const visit = draw(spread.visits);
      const wallMoisture = dry + lost * Math.exp(-rate * time_d) + visit;
      return stations.map(({ station, offset }) => ({
        wall: `W${w}`,
        arm: side,
        side,
        block: design === 'pairs' ? `B${pair}` : '',
        station,
        time_d,
        moisture: wallMoisture + offset + draw(spread.readings),
      }));
    });
  }).flat();
}

export interface DryingMethod {
  readonly id: string;
  readonly label: string;
  readonly naive: boolean;
  readonly interval: (trial: readonly DryingObservation[]) => Interval | undefined;
}

export const dryingMethods: readonly DryingMethod[] = [
  { id: 'by-wall', label: 'A rate for each wall, walls compared', naive: false, interval: byWall },
  { id: 'one-fit', label: 'All walls in one fit (Lindstrom and Bates)', naive: false, interval: oneFit },
  { id: 'naive', label: 'Naive: one curve an arm, every reading counted', naive: true, interval: readingsAsUnits },
];

function byWall(trial: readonly DryingObservation[]): Interval | undefined {
  const walls = [...new Set(trial.map(({ wall }) => wall))].map((name) => trial.filter(({ wall }) => wall === name));
  const values = walls.flatMap((own) => {
    const { wall, arm, side, block } = own[0]!;
    const rate = rateOf(own);
    return rate === undefined ? [] : [{ wall, arm, side, block, value: rate }];
  });
  const what = { id: 'rate', label: 'rate', quantity: 'rate', unit: '', level: 0.95, scale: 'ratio' } as const;
  const answer = compareWalls(values, what);
  return answer.kind === 'estimated' ? answer.estimate.interval : undefined;
}

function rateOf(own: readonly DryingObservation[]): number | undefined {
  try {
    return fitDryingModel('exponential', meanCurve(own)).estimates.rate;
  } catch (error) {
    if (isDryingError(error)) return undefined;
    throw error;
  }
}

function oneFit(trial: readonly DryingObservation[]): Interval | undefined {
  const answer = dryingRateRatio(trial, { level: 0.95, season: false });
  return answer.kind === 'estimated' ? answer.estimate.interval : undefined;
}

function readingsAsUnits(trial: readonly DryingObservation[]): Interval | undefined {
  try {
    const fit = nonlinearLeastSquares({
      model: ({ dry, lost, logRate, ratio }, { side, time_d }: DryingObservation) =>
        dry + lost * Math.exp(-Math.exp(logRate + (side === 'treated' ? ratio : 0)) * time_d),
      x: trial,
      response: trial.map(({ moisture }) => moisture),
      gradient: ({ lost, logRate, ratio }, { side, time_d }) => {
        const isTreated = side === 'treated';
        const spent = Math.exp(logRate + (isTreated ? ratio : 0)) * time_d;
        const left = Math.exp(-spent);
        const slope = -lost * left * spent;
        return { dry: 1, lost: left, logRate: slope, ratio: isTreated ? slope : 0 };
      },
      start: { dry: 4, lost: 7, logRate: -4.4, ratio: 0 },
    });
    const { interval } = fit.parameters.find(({ name }) => name === 'ratio')!;
    return { level: 0.95, lower: Math.exp(interval.lower), upper: Math.exp(interval.upper) };
  } catch (error) {
    if (isStatisticsError(error)) return undefined;
    throw error;
  }
}

export interface DryingCoverage {
  readonly id: string;
  readonly label: string;
  readonly naive: boolean;
  readonly trials: number;
  readonly intervals: number;
  readonly held: number;
  readonly heldAtFirst: number;
  /** Of the logarithm of the ratio. */
  readonly meanHalfWidth: number;
}

export const firstTrials = 4;

/** How often each method's 95 % interval holds the true ratio of rates. */
export function countDryingCoverage(
  design: DryingDesign,
  walls: number,
  trials: number,
  seed: number,
): DryingCoverage[] {
  const stream = randomStream(seed);
  const counts = dryingMethods.map(() => ({ intervals: 0, held: 0, heldAtFirst: 0, halfWidths: 0 }));
  for (let number = 0; number < trials; number++) {
    const trial = dryingTrial(stream, walls, design);
    for (const [k, { interval: intervalOf }] of dryingMethods.entries()) {
      const interval = intervalOf(trial);
      if (interval === undefined) continue;
      const count = counts[k]!;
      const holds = Number(interval.lower <= trueRatio && trueRatio <= interval.upper);
      count.intervals++;
      count.held += holds;
      if (number < firstTrials) count.heldAtFirst += holds;
      count.halfWidths += Math.log(interval.upper / interval.lower) / 2;
    }
  }
  return dryingMethods.map(({ id, label, naive }, k) => {
    const { intervals, held, heldAtFirst, halfWidths } = counts[k]!;
    return {
      id,
      label,
      naive,
      trials,
      intervals,
      held,
      heldAtFirst,
      meanHalfWidth: halfWidths / Math.max(1, intervals),
    };
  });
}
