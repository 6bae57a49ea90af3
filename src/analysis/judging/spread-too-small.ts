import type { MoistureReading } from '../../moisture/index.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { chiSquare, fisherF, isStatisticsError, mean, median, variance, welch } from '../../statistics/index.js';
import { type Trial, windowSorter } from '../../trial/index.js';
import type { Side } from '../wall-change.js';
import { bothSides, sidesOfWalls } from './sides-of-walls.js';

type SpreadOf = 'before' | 'change';

/** Wall means inside the arms against what their stations' own scatter makes of them. */
export interface WallsAgainstStations {
  readonly of: SpreadOf;
  /** Mean square between walls over the residual mean square of walls and places; near 1 where walls do not differ at all. */
  readonly ratio: number;
  readonly degreesOfFreedom: readonly [walls: number, residual: number];
  /** Chance of so small a ratio, or a smaller one, if walls differed by nothing but their stations' scatter. */
  readonly pValue: number;
  readonly places: number;
}

/** Spread of one arm against the other's, before the treatment. */
export interface ArmAgainstArm {
  /** Of wall means, or of stations about their wall and place. */
  readonly of: 'walls' | 'stations';
  readonly variances: Readonly<Record<Side, number>>;
  /** Two-sided. */
  readonly pValue: number;
}

/** Stations' scatter about wall and place against the uncertainty that the balance alone gives. */
export interface ScatterAgainstBalance {
  readonly of: SpreadOf;
  /** Residual mean square over mean squared uncertainty. */
  readonly ratio: number;
  readonly degreesOfFreedom: number;
  /** Chance of so little scatter, or less, if the weighings alone made it. */
  readonly pValue: number;
}

export interface SpreadTooSmall {
  readonly walls: readonly WallsAgainstStations[];
  readonly arms: readonly ArmAgainstArm[];
  readonly balance: readonly ScatterAgainstBalance[];
  /** The smallest p-value times the number of tests, at most 1; 1 without any. */
  readonly pValue: number;
  /** Below 0.001: our convention. */
  readonly isAlarm: boolean;
}

const alarm = 0.001;
/** A wall without scatter counts as having this share of the usual, whose logarithm can be taken: our convention. */
const leastShare = 0.01;

/**
 * Numbers that vary less than walls, stations or the balance allow, or in one arm far less than in the other before anything was
 * done to either.
 *
 * - Walls: in each arm, walls by places (heights and depths that all walls of the arm have), the variance ratio of walls to residual, lower tail.
 *   Independent scatter of stations already makes wall means differ; likeness of neighbours makes them differ more, never less.
 * - Arms: wall means by the variance ratio, the farthest wall of the wider arm left aside, so that one wild wall does not do it; stations by the logarithms of each wall's residual
 *   variance, walls as the units (Welch).
 * - Balance: residual squares over the squared uncertainty that each weighing brings, chi-square, lower tail; only of weighed outcomes.
 *
 * @param readings of the outcome's instrument
 * @example spreadTooSmall(trial, outcomeReadings).isAlarm // false
 * @source means and variances of arms before treatment: Al-Marzouki, Evans, Marshall and Roberts 2005, BMJ 331:267-270
 */
export function spreadTooSmall(trial: Trial, readings: readonly MoistureReading[]): SpreadTooSmall {
  const cells = cellsOfWalls(trial, readings);
  const tables = (of: SpreadOf) => bothSides.flatMap((side) => tableOf(cells[side], { side, of }) ?? []);
  const [before, change] = [tables('before'), tables('change')];
  const both = [
    ['before', before],
    ['change', change],
  ] as const;
  const found = {
    walls: both.flatMap(([of, own]) => wallsAgainstStations(of, own) ?? []),
    arms: [wallsOfArms(before), stationsOfArms(before)].flatMap((one) => one ?? []),
    balance: both.flatMap(([of, own]) => againstBalance(of, own) ?? []),
  };
  const tests = [...found.walls, ...found.arms, ...found.balance];
  const pValue = tests.reduce((least, one) => Math.min(least, one.pValue * tests.length), 1);
  return { ...found, pValue, isAlarm: pValue < alarm };
}

/** The walls of an arm by the places that all of them have. */
interface SpreadTable {
  readonly side: Side;
  /** By wall, then by place. */
  readonly values: readonly (readonly number[])[];
  readonly places: number;
  /** Mean squared standard uncertainty of a value; absent where some reading has none. */
  readonly squaredUncertainty?: number;
}

interface Cell {
  readonly values: number[];
  squares: number;
  isKnown: boolean;
}

/** By wall, then by place. */
type CellsOfWalls = ReadonlyMap<string, ReadonlyMap<string, Record<'before' | 'after', Cell>>>;

function cellsOfWalls(trial: Trial, readings: readonly MoistureReading[]): Readonly<Record<Side, CellsOfWalls>> {
  const windowOf = windowSorter(trial);
  const sides = sidesOfWalls(trial);
  const placeOf = places(trial);
  const cellsOf = {
    treated: new Map<string, Map<string, Record<'before' | 'after', Cell>>>(),
    untreated: new Map<string, Map<string, Record<'before' | 'after', Cell>>>(),
  };
  for (const reading of readings) {
    const { wall, day, value, standardUncertainty } = reading;
    const side = sides.get(wall);
    if (side === undefined || value.kind !== 'measured') continue;
    const window = windowOf(wall, day);
    if (window === undefined) continue;
    const own = cellsOf[side].get(wall) ?? new Map<string, Record<'before' | 'after', Cell>>();
    cellsOf[side].set(wall, own);
    const place = placeOf(reading);
    const cells = own.get(place) ?? { before: emptyCell(), after: emptyCell() };
    own.set(place, cells);
    cells[window].values.push(value.value);
    cells[window].squares += (standardUncertainty ?? 0) ** 2;
    if (standardUncertainty === undefined) cells[window].isKnown = false;
  }
  return cellsOf;
}

function tableOf(
  walls: CellsOfWalls,
  { side, of }: { readonly side: Side; readonly of: SpreadOf },
): SpreadTable | undefined {
  const hasValue = (cells: Record<'before' | 'after', Cell> | undefined) =>
    cells !== undefined && cells.before.values.length > 0 && (of === 'before' || cells.after.values.length > 0);
  const list = [...walls.values()].filter((own) => [...own.values()].some(hasValue));
  const common = [...new Set(list.flatMap((own) => [...own.keys()]))].filter((place) =>
    list.every((own) => hasValue(own.get(place))),
  );
  if (list.length < 2 || common.length === 0) return undefined;
  const cells = list.map((own) => common.flatMap((place) => own.get(place) ?? []));
  const used = cells.flat().flatMap(({ before, after }) => (of === 'before' ? [before] : [before, after]));
  const squares = used.map(({ values, squares }) => squares / values.length ** 2);
  const isKnown = used.every((cell) => cell.isKnown);
  return {
    side,
    values: cells.map((own) =>
      own.map(({ before, after }) =>
        of === 'before' ? mean(before.values) : mean(after.values) - mean(before.values),
      ),
    ),
    places: common.length,
    ...(isKnown ? { squaredUncertainty: mean(squares) * (of === 'before' ? 1 : 2) } : {}),
  };
}

function emptyCell(): Cell {
  return { values: [], squares: 0, isKnown: true };
}

/** By height and depth where recorded, else by the station's name: walls share places only where they share these. */
function places(trial: Trial): (reading: MoistureReading) => string {
  const known = new Map<string, Map<string, string>>();
  for (const { wall, station, height_mm, depth_mm } of trial.stations) {
    if (height_mm === undefined && depth_mm === undefined) continue;
    const own = known.get(wall) ?? new Map<string, string>();
    known.set(wall, own.set(station, `${height_mm} ${depth_mm}`));
  }
  return ({ wall, station }) => known.get(wall)?.get(station) ?? station;
}

interface Residuals {
  readonly betweenWalls: number;
  readonly walls: number;
  readonly residual: number;
  readonly freedom: number;
  /** Residual variance of each wall. */
  readonly ofWalls: readonly number[];
}

/** Two-way analysis, walls by places, without interaction. */
function residualsOf({ values, places: width }: SpreadTable): Residuals {
  const wallMeans = values.map(mean);
  const placeMeans = Array.from({ length: width }, (_, place) => mean(values.map((own) => own[place] ?? 0)));
  const centre = mean(wallMeans);
  const squares = values.map((own, wall) =>
    own.reduce(
      (sum, value, place) => sum + (value - (wallMeans[wall] ?? 0) - (placeMeans[place] ?? 0) + centre) ** 2,
      0,
    ),
  );
  const residual = squares.reduce((sum, one) => sum + one, 0);
  const freedom = (values.length - 1) * (width - 1);
  const betweenWalls = width * wallMeans.reduce((sum, one) => sum + (one - centre) ** 2, 0);
  return {
    ...{ betweenWalls, walls: values.length - 1, residual, freedom },
    ofWalls: squares.map((one) => (width < 2 ? 0 : (one * values.length) / (values.length - 1) / (width - 1))),
  };
}

function summed(tables: readonly SpreadTable[]): Residuals {
  const all = tables.map(residualsOf);
  const sum = (of: 'betweenWalls' | 'walls' | 'residual' | 'freedom') => all.reduce((total, one) => total + one[of], 0);
  return {
    ...{ betweenWalls: sum('betweenWalls'), walls: sum('walls'), residual: sum('residual'), freedom: sum('freedom') },
    ofWalls: all.flatMap(({ ofWalls }) => ofWalls),
  };
}

function wallsAgainstStations(of: SpreadOf, tables: readonly SpreadTable[]): WallsAgainstStations | undefined {
  const wide = tables.filter((table) => table.places > 1);
  const { betweenWalls, walls, residual, freedom } = summed(wide);
  if (walls < 1 || freedom < 1 || !(residual > 0)) return undefined;
  const ratio = betweenWalls / walls / (residual / freedom);
  const most = wide.reduce((largest, table) => Math.max(largest, table.places), 0);
  return {
    of,
    ratio,
    degreesOfFreedom: [walls, freedom],
    pValue: fisherF(walls, freedom).lowerTail(ratio),
    places: most,
  };
}

function againstBalance(of: SpreadOf, tables: readonly SpreadTable[]): ScatterAgainstBalance | undefined {
  const wide = tables.flatMap((table) =>
    table.places > 1 && (table.squaredUncertainty ?? 0) > 0
      ? [{ ...residualsOf(table), square: table.squaredUncertainty ?? 0 }]
      : [],
  );
  const degreesOfFreedom = wide.reduce((sum, { freedom }) => sum + freedom, 0);
  if (degreesOfFreedom < 1) return undefined;
  const statistic = wide.reduce((sum, { residual, square }) => sum + residual / square, 0);
  const pValue = chiSquare(degreesOfFreedom).lowerTail(statistic);
  return { of, ratio: statistic / degreesOfFreedom, degreesOfFreedom, pValue };
}

/** Walls of one arm against those of the other. */
function wallsOfArms(tables: readonly SpreadTable[]): ArmAgainstArm | undefined {
  return ofArms('walls', tables, {
    valuesOf: (table) => table.values.map(mean),
    variance,
    test: varianceRatioWithoutFarthest,
  });
}

/** Two-sided variance ratio; the farthest wall of the wider arm is left aside, for one wild wall makes no arm too narrow. */
function varianceRatioWithoutFarthest(x: readonly number[], y: readonly number[]): number {
  const [narrow, wide] = variance(x) <= variance(y) ? [x, y] : [y, x];
  const centre = median(wide);
  const rest = wide.toSorted((one, other) => Math.abs(one - centre) - Math.abs(other - centre)).slice(0, -1);
  const ratio = variance(rest) / variance(narrow);
  if (!(ratio > 1)) return 1;
  return Math.min(1, 2 * fisherF(rest.length - 1, narrow.length - 1).upperTail(ratio));
}

function stationsOfArms(tables: readonly SpreadTable[]): ArmAgainstArm | undefined {
  const wide = tables.filter((table) => table.places > 1);
  const all = wide.flatMap((table) => residualsOf(table).ofWalls);
  const usual = all.length === 0 ? 0 : mean(all);
  if (!(usual > 0)) return undefined;
  const logarithms = (values: readonly number[]) =>
    values.map((value) => Math.log(Math.max(value, leastShare * usual)));
  return ofArms('stations', wide, {
    valuesOf: (table) => residualsOf(table).ofWalls,
    variance: mean,
    test: (x, y) => welch(logarithms(x), logarithms(y)).pValue,
  });
}

interface TestOfArms {
  readonly valuesOf: (table: SpreadTable) => readonly number[];
  readonly variance: (values: readonly number[]) => number;
  readonly test: (treated: readonly number[], untreated: readonly number[]) => number;
}

function ofArms(
  of: ArmAgainstArm['of'],
  tables: readonly SpreadTable[],
  { valuesOf, variance: varianceOf, test }: TestOfArms,
): ArmAgainstArm | undefined {
  const [treated, untreated] = bothSides.map((side) => tables.find((table) => table.side === side));
  if (treated === undefined || untreated === undefined) return undefined;
  const [x, y] = [valuesOf(treated), valuesOf(untreated)];
  return unlessRefused(isStatisticsError, () => ({
    of,
    variances: { treated: varianceOf(x), untreated: varianceOf(y) },
    pValue: test(x, y),
  }));
}
