import { daysInYear } from '../plain/calendar.js';
import { dayNumber, msInDay } from '../plain/days.js';
import { itemAt } from '../plain/in-order.js';
import { present } from '../plain/present.js';
import {
  covariate,
  type DesignTerm,
  designMatrix,
  factor,
  fitMixedModel,
  intercept,
  mean,
  StatisticsError,
  satterthwaite,
  studentT,
} from '../statistics/index.js';
import type { Answer } from './answer.js';
import { comparisonDesign } from './comparison-design.js';
import type { Named } from './estimate.js';
import { estimatedUnlessRefused } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import type { PlacedWall } from './wall-change.js';
import { wallCount } from './wall-groups.js';

/** A wall's mean moisture at one visit, and what the weather was then. */
export interface WallVisit extends PlacedWall {
  /** ISO day. */
  readonly day: string;
  readonly window: 'before' | 'after';
  readonly moisture: number;
  /** By name, the same names at every visit; none where only the season is adjusted for. */
  readonly weather?: Readonly<Record<string, number>>;
}

export interface Adjustment extends Named {
  /** Adjust for a yearly cycle common to all walls. */
  readonly season: boolean;
  /** Names of `weather`, adjusted for linearly. */
  readonly weather: readonly string[];
}

/**
 * Treated walls' change less untreated walls', every visit adjusted for season or weather: a mixed model of the walls'
 * visits on window, side and both, a yearly cycle (one harmonic) and weather, walls and their changes at random,
 * Satterthwaite's degrees of freedom but never more than the walls leave.
 *
 * Where all walls were read on the same days under the same weather it changes next to nothing: walls without the
 * treatment already take off what all have in common. It shows whether unlike days or sites matter.
 *
 * @example
 * const days = ['2024-03-15', '2024-04-20', '2024-05-25', '2025-03-15', '2025-04-20', '2025-05-25'];
 * const visits = days.flatMap((day, visit) => {
 *   const window = visit < 3 ? 'before' : 'after';
 *   return design.walls.map((wall, at) => ({ ...wall, day, window, moisture: wall[window] + 0.2 * Math.sin(7 * visit + at) }));
 * });
 * const adjustment = { id: 'season-adjusted', season: true, weather: [] };
 * adjustedDifference(visits, adjustment, { level: 0.95, unit: '% by mass' }).estimate.estimate // -4.186
 */
export function adjustedDifference(visits: readonly WallVisit[], what: Adjustment, options: PrimaryOptions): Answer {
  const { id, about, season, weather } = what;
  const walls = [...new Map(visits.map((one) => [one.wall, one])).values()];
  const { design } = comparisonDesign(walls);
  const kept = new Set(design.walls.map(({ wall }) => wall));
  const rows = visits.filter(({ wall }) => kept.has(wall));
  return estimatedUnlessRefused(
    what,
    () => {
      const spare = spareWalls(
        design.walls,
        design.kind === 'complete' ? 1 : new Set(walls.map(({ block }) => block)).size,
      );
      const late = rows.map((row) => (row.window === 'after' ? 1 : 0));
      const isBlocked = design.kind === 'pairs' || design.kind === 'blocks';
      const wallTerms = { name: 'wall', groups: rows.map(({ wall }) => wall) };
      const fit = fitMixedModel({
        response: rows.map(({ moisture }) => moisture),
        fixed: designMatrix(termsOf(rows, late, season, weather)),
        random: [
          wallTerms,
          { ...wallTerms, name: 'change of wall', columns: [{ name: 'after', values: late }] },
          ...(isBlocked
            ? [
                {
                  name: 'change of block',
                  groups: rows.map(({ block }) => block),
                  columns: [{ name: 'after', values: late }],
                },
              ]
            : []),
        ],
        method: 'reml',
      });
      const { estimate, standardError, degreesOfFreedom: found } = satterthwaite(fit, { 'treated after': 1 });
      const degreesOfFreedom = Math.min(found, spare);
      const distribution = studentT(degreesOfFreedom);
      const reach = distribution.upperQuantile((1 - options.level) / 2) * standardError;
      return {
        kind: 'estimated',
        estimate: {
          id,
          ...present({ about }),
          unit: options.unit,
          estimate,
          interval: { level: options.level, lower: estimate - reach, upper: estimate + reach },
          standardError,
          degreesOfFreedom,
          pValue: Math.min(1, 2 * distribution.upperTail(Math.abs(estimate / standardError))),
          method: { kind: 'adjusted', season, weather },
          walls: wallCount(design.walls),
        },
      };
    },
    {
      collinear: { code: 'after-is-window' },
      'no-variation': { code: 'visits-do-not-vary' },
    },
  );
}

function termsOf(
  rows: readonly WallVisit[],
  late: readonly number[],
  season: boolean,
  weather: readonly string[],
): readonly DesignTerm[] {
  // In milliseconds: where the season takes nothing away, answers with and without it tie, and their order hangs on the last digit.
  const turn = rows.map(({ day }) => (2 * Math.PI * (dayNumber(day) * msInDay)) / (daysInYear * msInDay));
  return [
    intercept(),
    factor(
      'side',
      rows.map(({ side }) => side),
      { reference: 'untreated' },
    ),
    covariate('after', late),
    covariate(
      'treated after',
      rows.map(({ side }, row) => (side === 'treated' ? itemAt(late, row) : 0)),
    ),
    ...(season
      ? [covariate('cosine of the year', turn.map(Math.cos)), covariate('sine of the year', turn.map(Math.sin))]
      : []),
    ...weather.map((name) =>
      covariate(
        name,
        centred(
          name,
          rows.map((row) => weatherOf(row, name)),
        ),
      ),
    ),
  ];
}

function centred(name: string, values: readonly number[]): readonly number[] {
  if (values.every((value) => value === values[0]))
    throw new StatisticsError('adjustedDifference', 'no-variation', `needs "${name}" to vary between visits`);
  const centre = mean(values);
  return values.map((value) => value - centre);
}

function weatherOf({ weather, wall, day }: WallVisit, name: string): number {
  const value = weather?.[name];
  if (value !== undefined) return value;
  throw new StatisticsError(
    'adjustedDifference',
    'too-few',
    `needs "${name}" at every visit, wall ${wall} has none on ${day}`,
  );
}

function spareWalls(walls: readonly PlacedWall[], groups: number): number {
  const { treated, untreated } = wallCount(walls);
  const spare = walls.length - groups - 1;
  if (spare > 0 && Math.min(treated, untreated) > 1) return spare;
  throw new StatisticsError('adjustedDifference', 'too-few', 'needs walls to spare in the arms and blocks');
}
