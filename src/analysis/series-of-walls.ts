import type { MoistureReading } from '../moisture/index.js';
import { daysBetween } from '../plain/days.js';
import { groupBy, valuesBy } from '../plain/group-by.js';
import { itemAt } from '../plain/in-order.js';
import { mean } from '../statistics/index.js';
import { daySorter, type Trial } from '../trial/index.js';
import type { PlaceReading } from './place-reading.js';
import { inStepWith } from './visits-in-step.js';
import type { WallChange } from './wall-change.js';
import { namesOfWalls } from './walls-as-one.js';

/** How a treated wall stood against an untreated one, or one against the mean of several, visit by visit. */
export interface SeriesOfWalls {
  readonly treated: WallChange;
  readonly untreated: WallChange;
  /** Visits inside the windows at which all walls were read, in their order. */
  readonly visits: readonly SeriesVisit[];
  /** How many of them hold readings of days up to three apart. */
  readonly visitsApart: number;
  /** Heights and depths at which both walls were read, of several pairs of walls the fewest; 0 where whole walls are compared. */
  readonly matchedPlaces: number;
}

export interface SeriesVisit {
  /** ISO day; that of the wall which stands alone on its side where the walls were read on different days. */
  readonly day: string;
  /** Days since the first visit. */
  readonly time_d: number;
  readonly window: 'before' | 'after';
  /** Treated less untreated, in the outcome's unit. */
  readonly difference: number;
}

/**
 * Treated less untreated wall at each visit common to both. Where both walls have stations of the same height and depth, like
 * is compared with like and stations without a counterpart are left aside; else the walls' means over their stations are.
 *
 * A place that was missed at a visit does not pull that visit's mean towards the others: each place counts by how far it is
 * from its own mean before. Where a side has several walls, each pair of a treated and an untreated wall is followed so, and
 * their mean taken at the visits at which all were read. Visits at most three days apart count as one (our convention).
 *
 * @param used readings behind the walls' changes, as `stationChanges` gives them
 * @example seriesOfWalls(twoWalls, readingsOfTwo, changesOfTwo[0], changesOfTwo[1]).visits[0].difference // -0.8123
 */
export function seriesOfWalls(
  trial: Trial,
  used: readonly MoistureReading[],
  treated: WallChange,
  untreated: WallChange,
): SeriesOfWalls {
  const readingsOf = (side: WallChange) =>
    namesOfWalls(side)
      .toSorted()
      .map((wall) => placeReadings(trial, used, wall));
  const [own, others] = [readingsOf(treated), readingsOf(untreated)];
  const alone = itemAt(own.length > 1 && others.length === 1 ? others : own, 0);
  const inStep = (side: readonly PlaceReading[][]) => side.map((readings) => inStepWith(alone, readings));
  const steps = [inStep(own), inStep(others)] as const;
  const pairs = steps[0].flatMap((one) => steps[1].map((other) => differencesOf(one.readings, other.readings)));
  const [first] = pairs;
  const common = [...(first?.visits.values() ?? [])].filter(({ day, window }) =>
    pairs.every(({ visits }) => visits.get(day)?.window === window),
  );
  const visits = common.sort((one, other) => (one.day < other.day ? -1 : 1));
  return {
    treated,
    untreated,
    visits: visits.map(({ day, window }) => ({
      day,
      time_d: daysBetween(visits[0]?.day ?? day, day),
      window,
      difference: mean(pairs.flatMap((pair) => pair.visits.get(day)?.value ?? [])),
    })),
    visitsApart: visits.filter(({ day }) => steps.some((side) => side.some(({ moved }) => moved.has(day)))).length,
    matchedPlaces: Math.min(...pairs.map(({ matchedPlaces }) => matchedPlaces)),
  };
}

interface Visit {
  readonly day: string;
  readonly window: 'before' | 'after';
  readonly value: number;
}

interface Differences {
  readonly visits: ReadonlyMap<string, Visit>;
  readonly matchedPlaces: number;
}

/** One wall less another, by day. */
function differencesOf(own: readonly PlaceReading[], other: readonly PlaceReading[]): Differences {
  const matched = matchedDifferences(own, other);
  const visits = matched.length > 0 ? levelled(matched) : ofWholeWalls(own, other);
  return { visits, matchedPlaces: new Set(matched.map(({ place }) => place)).size };
}

/**
 * A wall's means by place and day; a place is a height and depth, or a station whose height is not known. Where no place was
 * read in both windows, the wall as a whole is the place.
 */
function placeReadings(trial: Trial, used: readonly MoistureReading[], wall: string): PlaceReading[] {
  const places = new Map(
    trial.stations.flatMap(({ wall: own, station, height_mm, depth_mm }): [string, string][] =>
      own === wall && height_mm !== undefined ? [[station, JSON.stringify([height_mm, depth_mm])]] : [],
    ),
  );
  const sorted = daySorter(trial);
  const readings = used.flatMap(({ wall: own, station, day, value }): PlaceReading[] => {
    if (own !== wall || value.kind !== 'measured') return [];
    const window = sorted(wall, day);
    if (window !== 'before' && window !== 'after') return [];
    return [{ place: places.get(station) ?? `station ${wall} ${station}`, day, window, value: value.value }];
  });
  const byPlace = meansByDay(readings);
  const lasting = ofPlacesInBoth(byPlace);
  return lasting.length > 0 ? lasting : meansByDay(byPlace.map((reading) => ({ ...reading, place: `wall ${wall}` })));
}

function meansByDay(readings: readonly PlaceReading[]): PlaceReading[] {
  const visits = groupBy(readings, ({ place, day }) => JSON.stringify([place, day]));
  return [...visits.values()].map((same) => ({ ...same[0], value: mean(same.map(({ value }) => value)) }));
}

/** Those of places with readings in both windows. */
function ofPlacesInBoth(readings: readonly PlaceReading[]): PlaceReading[] {
  const placesIn = (name: PlaceReading['window']) =>
    new Set(readings.filter(({ window }) => window === name).map(({ place }) => place));
  const [before, after] = [placesIn('before'), placesIn('after')];
  return readings.filter(({ place }) => before.has(place) && after.has(place));
}

/** Of places on both walls that have differences in both windows. */
function matchedDifferences(own: readonly PlaceReading[], other: readonly PlaceReading[]): readonly PlaceReading[] {
  const keyOf = ({ place, day, window }: PlaceReading) => JSON.stringify([place, day, window]);
  const others = new Map(other.map((reading) => [keyOf(reading), reading.value]));
  const all = own.flatMap((reading) => {
    const value = others.get(keyOf(reading));
    return value === undefined ? [] : [{ ...reading, value: reading.value - value }];
  });
  return ofPlacesInBoth(all);
}

function ofWholeWalls(own: readonly PlaceReading[], other: readonly PlaceReading[]): ReadonlyMap<string, Visit> {
  const [one, another] = [levelled(own), levelled(other)];
  return new Map(
    [...one].flatMap(([day, visit]): [string, Visit][] => {
      const beside = another.get(day);
      if (beside === undefined || beside.window !== visit.window) return [];
      return [[day, { ...visit, value: visit.value - beside.value }]];
    }),
  );
}

/** Mean over places on each day, each place measured from its own mean before; nothing where none was read before. */
function levelled(readings: readonly PlaceReading[]): ReadonlyMap<string, Visit> {
  const before = valuesBy(
    readings,
    ({ place, window }) => (window === 'before' ? place : undefined),
    ({ value }) => value,
  );
  const levels = new Map([...before].map(([place, values]) => [place, mean(values)]));
  const overall = levels.size === 0 ? 0 : mean([...levels.values()]);
  const risen = readings.flatMap(({ place, day, window, value }) => {
    const level = levels.get(place);
    return level === undefined ? [] : [{ day, window, value: value - level }];
  });
  return new Map(
    [...groupBy(risen, ({ day }) => day)].map(([day, own]) => {
      const [{ window }] = own;
      return [day, { day, window, value: overall + mean(own.map(({ value }) => value)) }];
    }),
  );
}
