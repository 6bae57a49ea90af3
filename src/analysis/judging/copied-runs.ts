import { isoDay } from '../../plain/days.js';
import { distinctBy, groupBy, valuesBy } from '../../plain/group-by.js';
import { binomial, median } from '../../statistics/index.js';
import type { Reading, RowOrigin, Trial } from '../../trial/index.js';
import type { SamePair } from './copied-masses.js';
import { tieChance } from './copied-masses.js';
import { inSteps } from './in-steps.js';

/** Two visits of a wall, two readers on a day, or two walls, read at the same places. */
export interface ComparedVisits {
  readonly between: 'visits' | 'readers' | 'walls';
  readonly instrument: string;
  readonly one: { readonly wall: string; readonly day: string };
  readonly other: { readonly wall: string; readonly day: string };
  /** Readings at the same places, and those that agree within 20 steps. */
  readonly places: number;
  readonly near: number;
  /** Equal readings, with the rows in which they stand. */
  readonly equal: readonly SamePair[];
  /** Equal readings expected among the near ones. */
  readonly expected: number;
  readonly pValue: number;
  /** Times the number of comparisons (Bonferroni), at most 1. */
  readonly adjustedP: number;
}

export interface CopiedRuns {
  readonly comparisons: number;
  /** In order of the p-value: those whose adjusted p-value is below 0.001. */
  readonly found: readonly ComparedVisits[];
  /** The smallest adjusted p-value of all comparisons; 1 without any. */
  readonly smallestP: number;
}

/** Fewer places, or equal readings, than these are no run: our convention. */
const fewest = 4;
/** A visit is compared with so many before it, so that a long record costs no more than its length. */
const visitsBack = 250;
/** Of the walls, those with most ties are left out where the usual share of ties is reckoned. */
const trimmedShare = 0.25;
export const copiedAlarm = 0.001;
const reach = 20;
const width = 2 * reach + 1;

/**
 * Runs of equal readings between two visits of a wall, two readers on one day, or two walls. Of the places at which two visits
 * agree within 20 steps, some agree exactly by chance: one in 41 where readings are finely divided, and more on a coarse meter or a
 * steady wall. The chance is taken as the largest of what these show: differences of one and two steps, continued to none by a normal curve;
 * the two visits' other places; the other visits of the wall (their median); and all comparisons of the kind, without the quarter of walls that have
 * most ties. Four equal readings at least make a run (our convention). A sensor log, which may stand still, is not looked at. Copying in most walls at once looks like a coarse meter and is not found.
 */
export function copiedRuns(trial: Trial): CopiedRuns {
  const byInstrument = instrumentsHeld(trial).map((instrument) => ({ instrument, pairs: pairsOf(trial, instrument) }));
  const comparisons = byInstrument.reduce((sum, { pairs }) => sum + pairs.length, 0);
  const judged = byInstrument.flatMap(({ instrument, pairs }) => judgedOf(instrument, pairs, comparisons));
  const found = judged.filter(({ adjustedP }) => adjustedP < copiedAlarm).sort((a, b) => a.pValue - b.pValue);
  const smallestP = judged.reduce((least, { adjustedP }) => Math.min(least, adjustedP), 1);
  return { comparisons, found, smallestP };
}

function instrumentsHeld({ protocol, readings }: Trial): readonly string[] {
  const logged = new Set(
    protocol.instruments.flatMap(({ instrument, kind }) => (kind === 'embedded-sensor' ? instrument : [])),
  );
  return [...new Set(readings.map(({ instrument }) => instrument))].filter((one) => !logged.has(one));
}

interface Visit {
  readonly wall: string;
  readonly day: string;
  readonly reader: string;
  readonly places: Map<string, PlaceRead>;
  /** Of a whole series: how often a place shows what it showed at the visit before. */
  readonly standing?: number;
}

interface PlaceRead {
  readonly value: number;
  readonly origin: RowOrigin;
}

interface Counted {
  readonly between: ComparedVisits['between'];
  readonly one: Visit;
  readonly other: Visit;
  readonly places: number;
  readonly near: number;
  readonly ties: number;
  /** By distance in steps. */
  readonly byOne: number;
  readonly byTwo: number;
}

function pairsOf(trial: Trial, instrument: string): readonly Counted[] {
  const visits = visitsOf(trial, instrument);
  const names = [...new Set(visits.flatMap(({ places }) => [...places.keys()]))];
  // By place in one order for all visits, so that two of them are compared number by number.
  const values = visits.map(({ places }) => Float64Array.from(names, (name) => places.get(name)?.value ?? Number.NaN));
  const pairs: Counted[] = [];
  for (const [at, other] of visits.entries())
    for (let back = Math.max(0, at - visitsBack); back < at; back++) {
      const [one, first, second] = [visits[back], values[back], values[at]];
      if (one === undefined || first === undefined || second === undefined) continue;
      const counted = countedOf(first, second);
      if (counted.places < fewest) continue;
      const between = one.wall !== other.wall ? 'walls' : one.day === other.day ? 'readers' : 'visits';
      pairs.push({ between, one, other, ...counted });
    }
  return pairs;
}

/** NaN stands for a place that was not read. */
function countedOf(first: Float64Array, second: Float64Array) {
  let [places, near, ties, byOne, byTwo] = [0, 0, 0, 0, 0];
  for (let at = 0; at < first.length; at++) {
    const distance = Math.abs((first[at] as number) - (second[at] as number));
    if (Number.isNaN(distance)) continue;
    places += 1;
    if (distance > reach) continue;
    near += 1;
    if (distance === 0) ties += 1;
    if (distance === 1) byOne += 1;
    if (distance === 2) byTwo += 1;
  }
  return { places, near, ties, byOne, byTwo };
}

function judgedOf(instrument: string, pairs: readonly Counted[], comparisons: number): readonly ComparedVisits[] {
  return (['visits', 'readers', 'walls'] as const).flatMap((between) => {
    const own = pairs.filter((pair) => pair.between === between);
    if (!own.some(({ ties }) => ties >= fewest)) return [];
    const ofWalls = byWall(own);
    const usual = Math.max(continued(own), usualShare(ofWalls));
    return own.flatMap((pair): ComparedVisits[] => {
      const { one, other, places, near, ties } = pair;
      if (ties < fewest) return [];
      const steady = between === 'walls' ? 0 : steadiness(ofWalls.get(one.wall) ?? [], pair);
      const standing = Math.max(one.standing ?? 0, other.standing ?? 0);
      const chance = Math.min(1, Math.max(usual, otherPlaces(one, other), steady, standing));
      const pValue = binomial(near, chance).upperTail(ties - 1);
      return [
        {
          ...{ between, instrument, places, near, pValue },
          one: { wall: one.wall, day: one.day },
          other: { wall: other.wall, day: other.day },
          equal: equalPlaces(one, other),
          expected: near * chance,
          adjustedP: Math.min(1, pValue * comparisons),
        },
      ];
    });
  });
}

function equalPlaces(one: Visit, other: Visit): readonly SamePair[] {
  return [...one.places].flatMap(([place, { value, origin }]) => {
    const also = other.places.get(place);
    return also?.value === value ? [{ one: origin, other: also.origin }] : [];
  });
}

/** Visits in order of day; where walls have too few places for a run, each wall's whole series as one, and each day's readings of all walls. */
function visitsOf(trial: Trial, instrument: string): readonly Visit[] {
  const own = trial.readings.filter((one) => one.instrument === instrument);
  const measured = own.flatMap((reading) =>
    reading.value.kind === 'measured' ? [{ reading, value: reading.value.value }] : [],
  );
  const { steps } = inSteps(measured.map(({ value }) => value));
  const placeOf = placesByName(trial);
  const visits = new Map<string, Visit>();
  for (const [at, { reading }] of measured.entries()) {
    const [day, reader] = [isoDay(reading.date), reading.reader ?? ''];
    const key = JSON.stringify([reading.wall, day, reader]);
    const visit = visits.get(key) ?? { wall: reading.wall, day, reader, places: new Map() };
    const place = placeOf(reading, visit.places.size);
    let again = 1;
    while (visit.places.has(`${place} ${again}`)) again += 1;
    visit.places.set(`${place} ${again}`, { value: steps[at] ?? 0, origin: reading.origin });
    visits.set(key, visit);
  }
  const inOrder = [...visits.values()].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  return inOrder.some(({ places }) => places.size >= fewest)
    ? inOrder
    : [...wholeSeries(inOrder), ...wholeDays(inOrder)];
}

function wholeSeries(visits: readonly Visit[]): readonly Visit[] {
  const walls = [...groupBy(visits, ({ wall }) => wall).values()];
  const standing = shareStanding(walls);
  return walls.map((own): Visit => {
    const [first] = own;
    const places = own.flatMap((visit, at) =>
      [...visit.places].map(([place, read]) => [`${at} ${place}`, read] as const),
    );
    return { ...first, places: new Map(places), standing };
  });
}

/** Where places show the same from visit to visit, two walls that agree once agree again, and that is no copy. */
function shareStanding(walls: readonly (readonly Visit[])[]): number {
  let [near, ties] = [0, 0];
  for (const visits of walls)
    for (const [at, { places }] of visits.entries())
      for (const [place, { value }] of places) {
        const before = visits[at - 1]?.places.get(place);
        if (before === undefined || Math.abs(value - before.value) > reach) continue;
        near += 1;
        if (value === before.value) ties += 1;
      }
  return near === 0 ? 0 : ties / near;
}

/** What stands for a wall's name where the readings of all of them on a day are one visit. */
const allWalls = 'all walls';

/** Each day's readings by one reader, over all walls: somebody who copies a round copies all of it. */
function wholeDays(visits: readonly Visit[]): readonly Visit[] {
  const days = new Map<string, Visit>();
  for (const { wall, day, reader, places } of visits) {
    const key = JSON.stringify([day, reader]);
    const known = days.get(key) ?? { wall: allWalls, day, reader, places: new Map() };
    for (const [place, read] of places) known.places.set(JSON.stringify([wall, place]), read);
    days.set(key, known);
  }
  return [...days.values()];
}

/** By height and depth where recorded; else by the station's name where walls share names; else by its order in the visit. */
function placesByName(trial: Trial): (reading: Reading, order: number) => string {
  const known = new Map(
    trial.stations.flatMap(({ wall, station, height_mm, depth_mm }) =>
      height_mm === undefined && depth_mm === undefined
        ? []
        : [[JSON.stringify([wall, station]), `${height_mm} ${depth_mm}`] as const],
    ),
  );
  const wallsOfName = distinctBy(
    trial.readings,
    ({ station }) => station,
    ({ wall }) => wall,
  );
  return ({ wall, station }, order) =>
    known.get(JSON.stringify([wall, station])) ??
    ((wallsOfName.get(station)?.size ?? 0) > 1 ? `name ${station}` : `order ${order}`);
}

/** Differences of one and two steps, continued to none by a normal curve, as a share of the near ones. */
function continued(pairs: readonly Counted[]): number {
  const sum = (of: 'near' | 'ties' | 'byOne' | 'byTwo') => pairs.reduce((total, pair) => total + pair[of], 0);
  const [byOne, byTwo] = [(sum('byOne') + 0.5) / 2, (sum('byTwo') + 0.5) / 2];
  const ties = byOne * Math.max(1, byOne / byTwo) ** (1 / 3);
  return tieChance(ties, sum('near') - sum('ties') + ties, width);
}

function usualShare(ofWalls: ReadonlyMap<string, readonly Counted[]>): number {
  const walls = [...ofWalls.values()].map((own) => ({
    near: own.reduce((sum, { near }) => sum + near, 0),
    ties: own.reduce((sum, { ties }) => sum + ties, 0),
  }));
  const sorted = walls.filter(({ near }) => near > 0).sort((a, b) => a.ties / a.near - b.ties / b.near);
  const kept = sorted.slice(0, Math.floor(sorted.length * (1 - trimmedShare)));
  return tieChance(
    kept.reduce((sum, { ties }) => sum + ties, 0),
    kept.reduce((sum, { near }) => sum + near, 0),
    width,
  );
}

function byWall(pairs: readonly Counted[]): ReadonlyMap<string, readonly Counted[]> {
  const ofEither = pairs.flatMap((pair) =>
    [...new Set([pair.one.wall, pair.other.wall])].map((wall) => ({ wall, pair })),
  );
  return valuesBy(
    ofEither,
    ({ wall }) => wall,
    ({ pair }) => pair,
  );
}

/** Median share of ties in the other comparisons of a wall; 0 where fewer than three tell it. */
function steadiness(own: readonly Counted[], pair: Counted): number {
  const others = own.filter((one) => one !== pair && one.near >= 3);
  return others.length < 3 ? 0 : median(others.map(({ ties, near }) => ties / near));
}

/** Ties between different places of the two visits: many where all places read the same, as below or above a meter's range. */
function otherPlaces(one: Visit, other: Visit): number {
  let [near, ties] = [0, 0];
  for (const [place, { value }] of one.places)
    for (const [also, { value: second }] of other.places) {
      if (place === also || Math.abs(value - second) > reach) continue;
      near += 1;
      if (value === second) ties += 1;
    }
  return tieChance(ties, near, width);
}
