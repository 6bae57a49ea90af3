import type { Side } from '../../analysis/index.js';
import { distinctBy, groupBy } from '../../plain/group-by.js';
import { mean } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import { limits } from '../limits.js';
import { type AirAtPlace, airOfPlaces } from './air-of-trial.js';
import { placesBeside } from './places-beside.js';

/** The air that stood for the walls of an arm, before and after. */
export interface AirOfArm {
  readonly arm: string;
  readonly side: Side;
  /** Walls whose air is on record in both windows. */
  readonly walls: number;
  /** Of those, the walls whose record is that of their own place. */
  readonly own: number;
  /** Evaporation potential, means over the walls of the means over each window. */
  readonly before_pa: number;
  readonly after_pa: number;
  readonly change_pa: number;
}

export interface AirOfArms {
  /** Treated arms first. */
  readonly arms: readonly AirOfArm[];
  readonly sides: Readonly<Record<Side, Pick<AirOfArm, 'before_pa' | 'after_pa' | 'change_pa' | 'walls'>>>;
  /**
   * After over before beside treated walls, over the same beside untreated walls: 1 where the air changed alike. Absent where an evaporation potential
   * is not above zero.
   */
  readonly ratio?: number;
  /** Whether the ratio lies outside of what counts as alike; absent without one. */
  readonly airUnlike?: boolean;
}

/**
 * The air beside the walls of each arm, each wall by what stands for its own; undefined unless both sides have air on record in both
 * windows. Heating, a dehumidifier or open windows beside the walls of one arm move the ratio away from 1.
 */
export function airOfArms(
  trial: Trial,
  sides: ReadonlyMap<string, Side>,
  walls: readonly AirOfWall[] = airOfWalls(trial, sides),
): AirOfArms | undefined {
  const [treated, untreated] = (['treated', 'untreated'] as const).map((side) =>
    walls.filter((one) => one.side === side),
  );
  if (treated === undefined || untreated === undefined || treated.length === 0 || untreated.length === 0)
    return undefined;
  const ofSides = { treated: meansOf(treated), untreated: meansOf(untreated) };
  const ratio = ratioOf(ofSides.treated, ofSides.untreated);
  return {
    arms: [...groupBy([...treated, ...untreated], ({ arm }) => arm)].flatMap(([arm, own]) => {
      const [first] = own;
      return first === undefined ? [] : [{ arm, side: first.side, ...meansOf(own), own: countOwn(own) }];
    }),
    sides: ofSides,
    ...(ratio === undefined ? {} : { ratio, airUnlike: isUnlike(ratio) }),
  };
}

function isUnlike(ratio: number): boolean {
  return ratio < limits.airRatioLeast.value || ratio > limits.airRatioMost.value;
}

/** The air of a wall in both windows. */
export interface AirOfWall extends Pick<AirOfArm, 'arm' | 'side' | 'before_pa' | 'after_pa'> {
  readonly wall: string;
  readonly isOwn: boolean;
}

/** By wall, the air that stands for its own in both windows. */
export function airOfWalls(trial: Trial, sides: ReadonlyMap<string, Side>): readonly AirOfWall[] {
  const [before, after] = (['before', 'after'] as const).map((window) => airOfPlaces(trial, window));
  if (before === undefined || after === undefined) return [];
  // A place that was read in one window only shows no change.
  const places = [...before.keys()].filter((place) => after.has(place));
  const beside = placesBeside(trial.walls, places);
  return trial.walls.flatMap(({ wall, arm }): AirOfWall[] => {
    const [side, own] = [sides.get(wall), beside(wall)];
    if (side === undefined || own === undefined) return [];
    const meanOf = (air: ReadonlyMap<string, AirAtPlace>) =>
      mean(own.places.flatMap((place) => air.get(place)?.evaporation_pa ?? []));
    return [{ wall, arm, side, isOwn: own.source === 'own', before_pa: meanOf(before), after_pa: meanOf(after) }];
  });
}

function meansOf(walls: readonly AirOfWall[]): Pick<AirOfArm, 'before_pa' | 'after_pa' | 'change_pa' | 'walls'> {
  const before_pa = mean(walls.map((wall) => wall.before_pa));
  const after_pa = mean(walls.map((wall) => wall.after_pa));
  return { walls: walls.length, before_pa, after_pa, change_pa: after_pa - before_pa };
}

function countOwn(walls: readonly AirOfWall[]): number {
  return walls.filter(({ isOwn }) => isOwn).length;
}

function ratioOf(
  treated: Pick<AirOfArm, 'before_pa' | 'after_pa'>,
  untreated: Pick<AirOfArm, 'before_pa' | 'after_pa'>,
): number | undefined {
  const values = [treated.before_pa, treated.after_pa, untreated.before_pa, untreated.after_pa];
  if (!values.every((value) => value > 0)) return undefined;
  return treated.after_pa / treated.before_pa / (untreated.after_pa / untreated.before_pa);
}

/** How far the record of the air can tell the arms apart. */
export interface AirBeside {
  readonly walls: readonly {
    readonly wall: string;
    readonly side: Side;
    /** Whether the air of its own place is on record in both windows. */
    readonly isRecorded: boolean;
    /** Whether a wall of the other side has the same site: both then stand under one roof. */
    readonly isShared: boolean;
  }[];
  /**
   * `one-roof` where nearly all walls share their site with a wall of the other side; else `both-recorded` where the air of their own places is
   * on record beside enough walls of either side; else `general-only` where other air is on record in both windows.
   */
  readonly cover: 'both-recorded' | 'one-roof' | 'general-only' | 'none';
}

/** Which walls have a record of their own air in both windows, and which share a site with a wall of the other side. */
export function airBeside(
  trial: Trial,
  sides: ReadonlyMap<string, Side>,
  recorded: readonly AirOfWall[] = airOfWalls(trial, sides),
): AirBeside {
  const isOwn = new Map(recorded.map((one) => [one.wall, one.isOwn]));
  const sidesOfSite = distinctBy(
    trial.walls,
    ({ site }) => site,
    ({ wall }) => sides.get(wall),
  );
  const walls = trial.walls.flatMap(({ wall, site }) => {
    const side = sides.get(wall);
    if (side === undefined) return [];
    const isShared = site !== undefined && sidesOfSite.get(site)?.size === 2;
    return [{ wall, side, isRecorded: isOwn.get(wall) ?? false, isShared }];
  });
  return { walls, cover: coverOf(walls, recorded.length > 0) };
}

function coverOf(walls: AirBeside['walls'], isAnyRecorded: boolean): AirBeside['cover'] {
  const shared = walls.filter(({ isShared }) => isShared).length;
  if (walls.length > 0 && shared >= limits.underOneRoof.value * walls.length) return 'one-roof';
  const areRecorded = (['treated', 'untreated'] as const).every((side) => {
    const own = walls.filter((wall) => wall.side === side);
    const recorded = own.filter(({ isRecorded }) => isRecorded).length;
    return own.length > 0 && recorded >= limits.airOfWalls.value * own.length;
  });
  if (areRecorded) return 'both-recorded';
  return isAnyRecorded ? 'general-only' : 'none';
}
