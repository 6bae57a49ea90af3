import type { Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { comparisonDesign } from '../comparison-design.js';
import type { StationChange } from '../wall-change.js';
import { wallChanges } from '../wall-changes.js';
import { answerFromDesign, type Named } from './answer-from-readings.js';

/** More than this many of a kind are not listed: the two that move the answer furthest stand for them. */
export const listedStations = 4;

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
  const keyOf = ({ wall, station }: StationChange) =>
    station === '' ? `of wall ${wall}` : `${station} of wall ${wall}`;
  return [
    ...withoutEach(trial, stations, {
      keyOf: ({ height_mm }) => height_mm,
      named: (key) => ({ id: `without-height-${key}`, label: `Without the stations at ${key} mm` }),
    }),
    ...withoutEach(trial, stations, {
      keyOf: ({ depth_mm }) => depth_mm,
      named: (key) => ({ id: `without-depth-${key}`, label: `Without the stations ${key} mm deep` }),
    }),
    ...withoutEach(trial, stations, {
      keyOf,
      named: (key) => ({ id: 'without-station', label: `Without ${key}` }),
    }),
  ];
}

interface Kind<Key> {
  readonly keyOf: (station: StationChange) => Key | undefined;
  readonly named: (key: Key) => Named;
}

function withoutEach<Key extends string | number>(
  trial: Trial,
  stations: readonly StationChange[],
  { keyOf, named }: Kind<Key>,
): readonly Answer[] {
  const keys = [...new Set(stations.flatMap((station) => keyOf(station) ?? []))].sort((a, b) => (a < b ? -1 : 1));
  if (keys.length < 2) return [];
  const answers = keys.map((key) => {
    const kept = stations.filter((station) => keyOf(station) !== key);
    return answerFromDesign(trial, comparisonDesign(wallChanges(trial, kept).walls).design, named(key));
  });
  return answers.length <= listedStations ? answers : furthestApart(answers);
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
            estimate: { ...estimate, label: `${estimate.label} (${end} of ${answers.length})` },
          },
        ],
  );
}
