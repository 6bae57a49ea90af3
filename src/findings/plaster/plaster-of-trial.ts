import type { Side } from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { daysBetween, isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import { type EventKind, type Trial, windowsOf } from '../../trial/index.js';

/** What the diary says of a compared wall’s plaster, between the start of its before and the end of its after window. */
interface PlasterOfWall {
  readonly wall: string;
  readonly side: Side;
  /** ISO days, in order. */
  readonly stripped: readonly string[];
  readonly renewed: readonly string[];
}

interface PlasterOfSide {
  /** Compared walls of the side. */
  readonly walls: number;
  readonly stripped: number;
  readonly renewed: number;
}

/** Readings of one instrument on the walls of one side that were given new plaster: before any work on it, and on the new plaster. */
interface ReadOnNewPlaster {
  readonly instrument: string;
  readonly side: Side;
  /** Walls that have both. */
  readonly walls: number;
  /** Means over walls, in the instrument’s own unit. */
  readonly before: number;
  readonly onNew: number;
}

export interface PlasterOfTrial {
  /** Walls with any work on their plaster, in the order of `walls.csv`. */
  readonly walls: readonly PlasterOfWall[];
  readonly bySide: Readonly<Record<Side, PlasterOfSide>>;
  /** Share of treated walls less share of untreated walls, the larger of stripped and renewed in size. */
  readonly apart: number;
  /** Days from the untreated walls’ mean day to the treated walls’, the larger of stripped and renewed; absent where one side has none. */
  readonly daysApart?: number;
  readonly readings: readonly ReadOnNewPlaster[];
  /** After readings of the outcome on compared walls, and those of them that were taken on new plaster. */
  readonly after: { readonly all: number; readonly onNew: number };
}

/**
 * Plaster that was stripped or renewed while the trial ran, by wall and arm: the commonest reason other than the treatment why a wall reads drier.
 * An event without a wall struck them all.
 *
 * @param readings of all instruments
 * @returns nothing where the diary notes no work on plaster of compared walls in that time
 */
export function plasterOfTrial(
  trial: Trial,
  readings: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
): PlasterOfTrial | undefined {
  const compared = trial.walls.flatMap(({ wall }) => {
    const side = sides.get(wall);
    return side === undefined ? [] : [{ wall, side }];
  });
  const all = compared.map(
    ({ wall, side }): PlasterOfWall => ({
      ...{ wall, side },
      stripped: daysOf(trial, wall, 'plaster-stripped'),
      renewed: daysOf(trial, wall, 'replastered'),
    }),
  );
  const walls = all.filter(({ stripped, renewed }) => stripped.length + renewed.length > 0);
  if (walls.length === 0) return undefined;
  const on = (side: Side): PlasterOfSide => {
    const own = all.filter((one) => one.side === side);
    const having = (what: Work) => own.filter((one) => one[what].length > 0).length;
    return { walls: own.length, stripped: having('stripped'), renewed: having('renewed') };
  };
  const bySide = { treated: on('treated'), untreated: on('untreated') };
  const daysApart = largest(works.flatMap((what) => daysBetweenSides(walls, what) ?? []));
  return {
    walls,
    bySide,
    apart: largest(works.map((what) => shareOf(bySide.treated, what) - shareOf(bySide.untreated, what))) ?? 0,
    ...present({ daysApart }),
    readings: readOnNewPlaster(readings, walls),
    after: afterOnNew(trial, readings, all),
  };
}

const works = ['stripped', 'renewed'] as const;
type Work = (typeof works)[number];

function daysOf(trial: Trial, wall: string, kind: EventKind): readonly string[] {
  const windows = windowsOf(trial, wall);
  return trial.events
    .filter((event) => event.kind === kind && (event.wall === undefined || event.wall === wall))
    .map(({ date }) => isoDay(date))
    .filter((day) => windows === undefined || (day >= windows.before.from && day <= windows.after.to))
    .sort();
}

function shareOf(side: PlasterOfSide, what: Work): number {
  return side.walls === 0 ? 0 : side[what] / side.walls;
}

/** The one farthest from 0. */
function largest(values: readonly number[]): number | undefined {
  return values.toSorted((one, other) => Math.abs(other) - Math.abs(one))[0];
}

function daysBetweenSides(walls: readonly PlasterOfWall[], what: Work): number | undefined {
  const from = walls.flatMap((wall) => wall[what])[0];
  const daysOn = (side: Side) =>
    walls
      .filter((wall) => wall.side === side)
      .flatMap((wall) => wall[what].map((day) => daysBetween(from ?? day, day)));
  const [treated, untreated] = [daysOn('treated'), daysOn('untreated')];
  return treated.length === 0 || untreated.length === 0 ? undefined : mean(treated) - mean(untreated);
}

function readOnNewPlaster(
  readings: readonly MoistureReading[],
  walls: readonly PlasterOfWall[],
): readonly ReadOnNewPlaster[] {
  const instruments = [...new Set(readings.map(({ instrument }) => instrument))];
  return instruments.flatMap((instrument) =>
    (['treated', 'untreated'] as const).flatMap((side) => {
      const means = walls.flatMap((wall) => {
        const own = readings.filter((one) => one.instrument === instrument && one.wall === wall.wall);
        const first = [...wall.stripped, ...wall.renewed].sort()[0] ?? '';
        const renewed = wall.renewed.at(-1);
        if (wall.side !== side || renewed === undefined) return [];
        const [before, onNew] = [
          valuesOf(own.filter(({ day }) => day < first)),
          valuesOf(own.filter(({ day }) => day >= renewed)),
        ];
        return before.length === 0 || onNew.length === 0 ? [] : [{ before: mean(before), onNew: mean(onNew) }];
      });
      if (means.length === 0) return [];
      const over = (what: 'before' | 'onNew') => mean(means.map((one) => one[what]));
      return [{ instrument, side, walls: means.length, before: over('before'), onNew: over('onNew') }];
    }),
  );
}

function valuesOf(readings: readonly MoistureReading[]): readonly number[] {
  return readings.flatMap(({ value }) => (value.kind === 'measured' ? [value.value] : []));
}

function afterOnNew(trial: Trial, readings: readonly MoistureReading[], walls: readonly PlasterOfWall[]) {
  const renewedOn = new Map(walls.map(({ wall, renewed }) => [wall, renewed.at(-1)]));
  const after = readings.filter(({ wall, day, instrument, value }) => {
    const windows = windowsOf(trial, wall);
    const isInAfter = windows !== undefined && day >= windows.after.from && day <= windows.after.to;
    return (
      renewedOn.has(wall) && isInAfter && value.kind === 'measured' && instrument === trial.protocol.outcome.instrument
    );
  });
  const onNew = after.filter(({ wall, day }) => day >= (renewedOn.get(wall) ?? '9999'));
  return { all: after.length, onNew: onNew.length };
}
