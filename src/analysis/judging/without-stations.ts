import { groupBy } from '../../plain/group-by.js';
import type { Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import type { Named } from '../estimate.js';
import { unitsOfWalls } from '../units-of-comparison.js';
import type { StationChange } from '../wall-change.js';
import { wallChanges } from '../wall-changes.js';
import { answerFromDesign } from './answer-from-readings.js';

/** More than this many of a kind are not listed: the two that move the answer furthest stand for them. */
const LISTED = 4;

/**
 * The primary answer without the stations of each height, of each depth, and without each single station. Where there are more
 * than a few of a kind, the two answers furthest apart, with how many were tried.
 *
 * @example withoutStations(trial, stations).length // 8: three heights, three depths, two of 144 stations
 */
export function withoutStations(trial: Trial, stations: readonly StationChange[]): readonly Answer[] {
  const walls = new Set(stations.map(({ wall }) => wall)).size;
  // Where a wall has one station, to leave it out is to leave out the wall.
  if (stations.length <= walls) return [];
  return [
    ...withoutEach(trial, stations, {
      keyOf: ({ height_mm }) => height_mm,
      named: (height_mm) => ({ id: `without-height-${height_mm}`, about: { kind: 'height', height_mm } }),
    }),
    ...withoutEach(trial, stations, {
      keyOf: ({ depth_mm }) => depth_mm,
      named: (depth_mm) => ({ id: `without-depth-${depth_mm}`, about: { kind: 'depth', depth_mm } }),
    }),
    ...withoutEach(trial, stations, {
      keyOf: ({ wall, station }) => JSON.stringify([station, wall]),
      named: (_, { wall, station }) => ({ id: 'without-station', about: { kind: 'station', wall, station } }),
    }),
  ];
}

interface Kind<Key> {
  readonly keyOf: (station: StationChange) => Key | undefined;
  readonly named: (key: Key, first: StationChange) => Named;
}

function withoutEach<Key extends string | number>(
  trial: Trial,
  stations: readonly StationChange[],
  { keyOf, named }: Kind<Key>,
): readonly Answer[] {
  const kinds = [...groupBy(stations, keyOf)].sort(([a], [b]) => (a < b ? -1 : 1));
  if (kinds.length < 2) return [];
  const designWithout = designsWithout(trial, stations);
  const answers = kinds.map(([key, left]) => answerFromDesign(trial, designWithout(left), named(key, left[0])));
  return answers.length <= LISTED ? answers : furthestApart(answers);
}

/** Leaving stations out changes their own walls alone, so that only those are computed anew. */
function designsWithout(
  trial: Trial,
  stations: readonly StationChange[],
): (left: readonly StationChange[]) => ComparisonDesign {
  const whole = wallChanges(trial, stations).walls;
  const unitsOf = unitsOfWalls(trial);
  return (left) => {
    const touched = new Set(left.map(({ wall }) => wall));
    const isLeft = new Set(left);
    const kept = stations.filter((station) => touched.has(station.wall) && !isLeft.has(station));
    const walls = trial.walls.filter(({ wall }) => touched.has(wall));
    const changed = new Map(wallChanges({ ...trial, walls }, kept).walls.map((wall) => [wall.wall, wall]));
    const rest = whole.flatMap((wall) => {
      if (!touched.has(wall.wall)) return wall;
      const own = changed.get(wall.wall);
      // A wall that lost its before values has no change, and an after value alone is none.
      const isComparable = own !== undefined && (own.before === undefined) === (wall.before === undefined);
      return isComparable ? own : [];
    });
    return comparisonDesign(unitsOf(rest).units).design;
  };
}

function furthestApart(answers: readonly Answer[]): readonly Answer[] {
  const estimates = answers.flatMap((answer) => (answer.kind === 'estimated' ? [answer.estimate] : []));
  const sorted = estimates.toSorted((one, other) => one.estimate - other.estimate);
  const ends = [
    ['lowest', sorted[0]],
    ['highest', sorted.at(-1)],
  ] as const;
  return ends.flatMap(([end, estimate]): Answer[] =>
    estimate === undefined
      ? []
      : [
          {
            kind: 'estimated',
            estimate: { ...estimate, endOf: { end, answers: answers.length } },
          },
        ],
  );
}
