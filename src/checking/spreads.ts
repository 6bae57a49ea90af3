import { stationChanges, wallChanges } from '../analysis/index.js';
import type { Visit } from '../findings/visits.js';
import type { MoistureReading } from '../moisture/index.js';
import { groupBy, valuesBy } from '../plain/group-by.js';
import { mean, variance } from '../statistics/index.js';
import type { Trial } from '../trial/index.js';
import { measuredValue } from '../trial/measured-value.js';

/** How outcome readings scatter, over all walls together whatever their arm. */
export interface Spread {
  readonly id: 'places' | 'visits' | 'walls-before' | 'changes';
  /** In the outcome's unit. */
  readonly standardDeviation: number;
  readonly degreesOfFreedom: number;
}

/**
 * Of two or three walls the spread of their changes would tell the size of the difference between them: our convention, no source.
 */
export const fewestWallsForChanges = 6;

/**
 * Standard deviations of the outcome, pooled over all walls: of places of a wall on a visit about the wall's mean, of visits of a place
 * inside a window about the place's mean, of walls' before means, and of walls' changes, the treatment's effect included.
 *
 * @param blind the trial without its arms
 */
export function spreadsOf(
  blind: Trial,
  readings: readonly MoistureReading[],
  visits: readonly Visit[],
): readonly Spread[] {
  const { stations, used } = stationChanges(blind, readings);
  const { walls } = wallChanges(blind, stations);
  const befores = walls.flatMap(({ before }) => before ?? []);
  const changes = walls.filter(({ before }) => before !== undefined).map(({ change }) => change);
  const windowOf = new Map(used.map((reading) => [reading, windowKey(blind, reading)]));
  return [
    pooled(
      'places',
      visits.flatMap((visit) =>
        groups(
          visit.readings,
          ({ wall }) => wall,
          ({ station }) => station,
        ),
      ),
    ),
    pooled(
      'visits',
      groups(
        used,
        (one) => JSON.stringify([one.wall, one.station, windowOf.get(one)]),
        ({ day }) => day,
      ),
    ),
    pooled('walls-before', [befores]),
    pooled('changes', changes.length < fewestWallsForChanges ? [] : [changes]),
  ].filter((spread) => spread !== undefined);
}

/** A reading that was used lies in one window or the other. */
function windowKey({ protocol, walls }: Trial, { wall, day }: MoistureReading): 'before' | 'after' {
  const windows = walls.find((one) => one.wall === wall)?.windows ?? protocol.windows;
  return windows !== undefined && day <= windows.before.to ? 'before' : 'after';
}

/** The means of each group's members, for every group: a place that was read twice counts once. */
function groups(
  readings: readonly MoistureReading[],
  groupOf: (reading: MoistureReading) => string,
  memberOf: (reading: MoistureReading) => string,
): readonly (readonly number[])[] {
  const read = readings.filter(({ value }) => value.kind === 'measured');
  return [...groupBy(read, groupOf).values()].map((own) =>
    [...valuesBy(own, memberOf, measuredValue).values()].map(mean),
  );
}

/** The square root of the variances' mean, weighted by their degrees of freedom. */
function pooled(id: Spread['id'], samples: readonly (readonly number[])[]): Spread | undefined {
  const several = samples.filter(({ length }) => length > 1);
  const degreesOfFreedom = several.reduce((sum, { length }) => sum + length - 1, 0);
  if (degreesOfFreedom === 0) return undefined;
  const squares = several.reduce((sum, sample) => sum + variance(sample) * (sample.length - 1), 0);
  return { id, standardDeviation: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
}
