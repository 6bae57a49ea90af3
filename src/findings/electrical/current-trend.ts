import type { Side } from '../../analysis/index.js';
import { present } from '../../plain/present.js';
import { orInstead } from '../../plain/unless-refused.js';
import {
  covariate,
  designMatrix,
  type Interval,
  intercept,
  isStatisticsError,
  leastSquares,
  mean,
  paired,
} from '../../statistics/index.js';
import { type ElectricalRecord, secondsOf, type Trial } from '../../trial/index.js';
import { circuitsOfWall } from './circuits-of-wall.js';

/** How the current of the treated walls went on, with walls as the units. */
export interface CurrentTrend {
  readonly walls: number;
  /** Mean over walls of the change in 30 days, as a share of the circuit's mean current; negative where it fell. */
  readonly trendPer30Days: number;
  /** Absent with one wall, or where all walls have the same trend. */
  readonly interval?: Interval;
  readonly pValue?: number;
}

/** Readings with a current that a circuit needs for a line: our convention. */
const leastReadings = 4;
const secondsIn30Days = 30 * 86_400;

/**
 * The slope of current on time by least squares, circuit by circuit, over the readings while on. It is taken relative to the circuit's
 * mean current, so that a current that falls to nothing counts as well, which a logarithm would refuse. A wall has the mean of its circuits.
 * Absent where no treated wall has a circuit with four readings at different times and a current.
 */
export function currentTrend(trial: Trial, sides: ReadonlyMap<string, Side>): CurrentTrend | undefined {
  const { electrical, walls, protocol } = trial;
  if (electrical === undefined) return undefined;
  const trends = walls.flatMap(({ wall }) => {
    if (sides.get(wall) !== 'treated') return [];
    const circuits = circuitsOfWall(electrical.filter((row) => row.wall === wall));
    const own = circuits.flatMap((rows) => trendOfCircuit(rows) ?? []);
    return own.length === 0 ? [] : [mean(own)];
  });
  if (trends.length === 0) return undefined;
  return { walls: trends.length, trendPer30Days: mean(trends), ...judged(trends, protocol.confidence) };
}

function trendOfCircuit(rows: readonly ElectricalRecord[]): number | undefined {
  const on = rows.flatMap(({ state, time, current_a }) =>
    state === 'on' && current_a !== undefined ? [{ time_s: secondsOf(time), current_a: Math.abs(current_a) }] : [],
  );
  const [first] = on;
  if (first === undefined || new Set(on.map(({ time_s }) => time_s)).size < leastReadings) return undefined;
  const level = mean(on.map(({ current_a }) => current_a));
  if (!(level > 0)) return undefined;
  const times = on.map(({ time_s }) => (time_s - first.time_s) / secondsIn30Days);
  const { coefficients } = leastSquares(
    designMatrix([intercept(), covariate('time', times)]),
    on.map(({ current_a }) => current_a / level),
  );
  return coefficients[1]?.estimate;
}

function judged(trends: readonly number[], level: number): Pick<CurrentTrend, 'interval' | 'pValue'> {
  return orInstead(
    isStatisticsError,
    () => {
      const { interval, pValue } = paired(trends, { level });
      return { interval, ...present({ pValue }) };
    },
    () => ({}),
  );
}
