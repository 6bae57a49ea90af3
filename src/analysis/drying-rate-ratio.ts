import { daysInYear } from '../plain/calendar.js';
import { itemAt } from '../plain/in-order.js';
import {
  covariate,
  type DesignMatrix,
  designMatrix,
  factor,
  fitNonlinearMixedModel,
  intercept,
  isStatisticsError,
  type NonlinearMixedFit,
  type RandomParameters,
  StatisticsError,
  satterthwaite,
  studentT,
} from '../statistics/index.js';
import type { Answer } from './answer.js';
import { comparisonDesign } from './comparison-design.js';
import { estimatedUnlessRefused } from './not-estimated.js';
import type { PlacedWall } from './wall-change.js';
import { wallCount } from './wall-groups.js';

/** One reading of a station of a wall while it dries. */
export interface DryingObservation extends PlacedWall {
  /** Empty for the wall as a whole. */
  readonly station: string;
  /** Days since the drying began. */
  readonly time_d: number;
  /** Days since one day common to all walls, for the season; `time_d` where all began on one day. */
  readonly season_d?: number;
  readonly moisture: number;
}

export interface RateRatioOptions {
  /** Of the interval. */
  readonly level: number;
  readonly season: boolean;
}

type Parameter = 'dry' | 'lost' | 'logRate';

/**
 * Treated over untreated rate of drying from one fit to all readings: moisture = dry + lost · exp(−rate · t), where the
 * logarithm of the rate differs by arm and, at random, by wall; what a wall loses differs by wall, how wet it stays by wall
 * and by station. Blocks add a random effect on the logarithm of the rate.
 *
 * Straightened and fitted again until it rests (Lindstrom and Bates), restricted maximum likelihood, Satterthwaite's degrees
 * of freedom but never more than the walls (or pairs) leave. With four pairs and a yearly cycle its interval is longer than need
 * be (tests/simulation/drying.md).
 *
 * @param options.season take a yearly cycle common to all walls off as well; it needs readings through most of a year
 * @example
 * const observations = design.walls.flatMap((wall, at) =>
 *   [0, 30, 60, 90, 150].map((time_d, visit) => ({
 *     ...wall,
 *     station: '',
 *     time_d,
 *     moisture: 3 + 6 * Math.exp(-(wall.side === 'treated' ? 0.03 : 0.02) * time_d) + 0.1 * Math.sin(7 * at + 3 * visit),
 *   })),
 * );
 * dryingRateRatio(observations, { level: 0.95, season: false }).estimate.estimate // 1.504
 */
export function dryingRateRatio(observations: readonly DryingObservation[], options: RateRatioOptions): Answer {
  const { level, season } = options;
  const id = season ? 'rate-ratio-season' : 'rate-ratio-one-fit';
  const walls = [...new Map(observations.map((one) => [one.wall, one])).values()];
  const { design } = comparisonDesign(walls);
  const kept = new Set(design.walls.map(({ wall }) => wall));
  const rows = observations.filter(({ wall }) => kept.has(wall));
  const isBlocked = design.kind === 'pairs' || design.kind === 'blocks';
  return estimatedUnlessRefused(
    { id },
    () => {
      if (design.kind === 'confounded')
        throw new StatisticsError('dryingRateRatio', 'collinear', 'needs a block that holds both sides');
      const spare = spareWalls(design.walls, isBlocked);
      const { straight } = fitted(rows, isBlocked, season);
      const found = satterthwaite(straight, { 'logRate: arm: treated': 1 }, { level });
      const degreesOfFreedom = Math.min(found.degreesOfFreedom, spare);
      const distribution = studentT(degreesOfFreedom);
      const reach = distribution.upperQuantile((1 - level) / 2) * found.standardError;
      return {
        kind: 'estimated',
        estimate: {
          id,
          unit: 'ratio',
          estimate: Math.exp(found.estimate),
          interval: {
            level,
            lower: Math.exp(found.estimate - reach),
            upper: Math.exp(found.estimate + reach),
          },
          degreesOfFreedom,
          pValue: Math.min(1, 2 * distribution.upperTail(Math.abs(found.statistic))),
          method: { kind: 'rate-ratio', season, isBlocked },
          walls: wallCount(design.walls),
        },
      };
    },
    {
      'not-converged': { code: 'curves-not-exponential' },
      'not-finite': { code: 'curves-not-of-drying' },
    },
  );
}

/** Walls left to judge chance by: after the arms, or after arm and blocks. */
function spareWalls(walls: readonly PlacedWall[], isBlocked: boolean): number {
  const { treated, untreated } = wallCount(walls);
  const groups = isBlocked ? new Set(walls.map(({ block }) => block)).size + 1 : 2;
  const spare = walls.length - groups;
  if (spare > 0 && Math.min(treated, untreated) > 1) return spare;
  throw new StatisticsError('dryingRateRatio', 'too-few', 'needs walls to spare in the arms and blocks');
}

function fitted(rows: readonly DryingObservation[], isBlocked: boolean, season: boolean): NonlinearMixedFit {
  const wall = rows.map((row) => row.wall);
  const arm: DesignMatrix = designMatrix([
    intercept(),
    factor(
      'arm',
      rows.map(({ side }) => side),
      { reference: 'untreated' },
    ),
  ]);
  const stations = rows.map((row) => JSON.stringify([row.wall, row.station]));
  const hasStations = new Set(stations).size > new Set(wall).size;
  const random: readonly RandomParameters<Parameter>[] = [
    { name: 'wall', groups: wall, parameters: ['dry', 'lost', 'logRate'] },
    ...(hasStations ? [{ name: 'station', groups: stations, parameters: ['dry' as const] }] : []),
    ...(isBlocked ? [{ name: 'block', groups: rows.map(({ block }) => block), parameters: ['logRate' as const] }] : []),
  ];
  const failures: StatisticsError[] = [];
  for (const start of startsFor(rows)) {
    try {
      return fitNonlinearMixedModel<Parameter, number>({
        model: ({ dry, lost, logRate }, time_d) => dry + lost * Math.exp(-Math.exp(logRate) * time_d),
        x: rows.map(({ time_d }) => time_d),
        response: rows.map(({ moisture }) => moisture),
        fixed: { logRate: arm, ...(season ? { dry: cycleOf(rows) } : {}) },
        random,
        start,
        method: 'reml',
      });
    } catch (error) {
      if (!isStatisticsError(error)) throw error;
      failures.push(error);
    }
  }
  // A fit that runs away fails in many ways, and none of them says anything of arms and blocks.
  const [first] = failures;
  if (first === undefined || first.fault === 'too-few') throw first;
  throw new StatisticsError(
    'dryingRateRatio',
    'not-converged',
    `needs curves that an exponential fits: ${first.message}`,
  );
}

/** What a wall keeps moves with the seasons: one harmonic, its phase whatever the readings say. */
function cycleOf(rows: readonly DryingObservation[]): DesignMatrix {
  const turn = rows.map(({ time_d, season_d = time_d }) => (2 * Math.PI * season_d) / daysInYear);
  return designMatrix([
    intercept(),
    covariate('cosine of the year', turn.map(Math.cos)),
    covariate('sine of the year', turn.map(Math.sin)),
  ]);
}

/** From the level of the driest and the wettest readings, and rates that spend a third, all or a tenth of the time. */
function startsFor(rows: readonly DryingObservation[]): readonly Record<Parameter, number>[] {
  const values = rows.map(({ moisture }) => moisture).sort((one, other) => one - other);
  const at = (share: number) => itemAt(values, Math.floor(share * (values.length - 1)));
  const longest = rows.reduce((most, { time_d }) => Math.max(most, time_d), 0);
  return [3, 1, 10].map((turns) => ({ dry: at(0.1), lost: at(0.9) - at(0.1), logRate: Math.log(turns / longest) }));
}
