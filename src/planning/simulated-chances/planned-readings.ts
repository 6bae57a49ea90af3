import type { StationChange } from '../../analysis/index.js';
import { chiSquare, normalDraws, type RandomStream, uniform } from '../../statistics/index.js';
import type { UncertainComparison } from '../walls-needed/planned-chances.js';
import type { PlannedWalls } from './planned-walls.js';

/**
 * One trial of walls that nothing was done to, drawn from the mixed model whose spreads the plan states: walls, correlated inside their pair,
 * block or house; stations inside walls; visits of a whole wall, each window a series of its own; single readings. Levels of walls and
 * stations go out of a change, and are left out.
 *
 * Walls are lost, and visits missed, at random.
 *
 * @returns the means of each station inside the windows, as an opinion begins with them
 */
export function plannedReadings(
  planned: UncertainComparison,
  { groups, isLostWhole }: PlannedWalls,
  stream: RandomStream,
): readonly StationChange[] {
  const { spreads, sampling, dropOut, missedVisits = 0 } = planned;
  const { stations, visitsBefore, visitsAfter } = sampling;
  const spreadOfWalls = spreadOf(planned, stream);
  const ofReadings = Math.hypot(spreads.readings, spreads.measurement);
  const early = { visits: visitsBefore, missedVisits, ofReadings };
  const late = { visits: visitsAfter, missedVisits, ofReadings };
  const changes: StationChange[] = [];
  for (const group of groups) {
    const own = alike(normalDraws(stream, group.length), group.length === 1 ? 0 : spreads.correlation);
    const isGroupLost = isLostWhole && uniform(stream) < dropOut;
    for (const [at, { wall, stations: names }] of group.entries()) {
      const isLost = isLostWhole ? isGroupLost : uniform(stream) < dropOut;
      const inside = normalDraws(stream, stations);
      const before = windowOf(planned, early, stream);
      const after = windowOf(planned, late, stream);
      const ofWall = spreadOfWalls * (own[at] ?? 0);
      for (const [place, station] of names.entries()) {
        // Each written out whole: spreading parts into it takes as long as the rest of the trial.
        const [first, last = 0] = [before?.[place], after?.[place]];
        const isAfter = after !== undefined && !isLost;
        const value = ofWall + spreads.stations * (inside[place] ?? 0) + last;
        if (first === undefined) changes.push(isAfter ? { wall, station, after: value } : { wall, station });
        else changes.push(isAfter ? { wall, station, before: first, after: value } : { wall, station, before: first });
      }
    }
  }
  return changes;
}

/** Standard normal values of which any two correlate alike: a root of (1 − r) I + r J. */
function alike(draws: Float64Array, correlation: number): Float64Array {
  const count = draws.length;
  if (correlation === 0) return draws;
  // Rounding may leave a little less than nothing.
  const common = Math.max(0, 1 + (count - 1) * correlation);
  const single = Math.sqrt(1 - correlation);
  const shared = (draws.reduce((sum, draw) => sum + draw, 0) * (Math.sqrt(common) - single)) / count;
  return draws.map((draw) => single * draw + shared);
}

/** Where a pilot leaves it open, the spread between walls is drawn anew for every trial. */
function spreadOf({ spreads, uncertainty }: UncertainComparison, stream: RandomStream): number {
  if (uncertainty === undefined) return spreads.walls;
  const { variance, degreesOfFreedom, inside } = uncertainty;
  // The upper tail of a number that may be 0 is all there is.
  const squares = chiSquare(degreesOfFreedom).upperQuantile(Math.max(Number.EPSILON, uniform(stream)));
  return Math.sqrt(Math.max(0, (degreesOfFreedom * variance) / squares - inside));
}

interface PlannedWindow {
  readonly visits: number;
  /** Share of the visits. */
  readonly missedVisits: number;
  /** Standard deviation of a single reading, that of its measurement included. */
  readonly ofReadings: number;
}

/** Means of a wall's stations over the visits that were not missed; nothing where all were. */
function windowOf(
  { spreads, sampling: { stations } }: UncertainComparison,
  { visits, missedVisits, ofReadings }: PlannedWindow,
  stream: RandomStream,
): readonly number[] | undefined {
  const { autocorrelation } = spreads;
  const shocks = normalDraws(stream, visits);
  const readings = normalDraws(stream, visits * stations);
  const sums = Array.from({ length: stations }, () => 0);
  let [carried, read] = [shocks[0] ?? 0, 0];
  const fresh = Math.sqrt(1 - autocorrelation ** 2);
  for (let visit = 0; visit < visits; visit++) {
    if (visit > 0) carried = autocorrelation * carried + fresh * (shocks[visit] ?? 0);
    if (missedVisits > 0 && uniform(stream) < missedVisits) continue;
    read++;
    for (let station = 0; station < stations; station++)
      sums[station] =
        (sums[station] ?? 0) + spreads.visits * carried + ofReadings * (readings[visit * stations + station] ?? 0);
  }
  return read === 0 ? undefined : sums.map((sum) => sum / read);
}
