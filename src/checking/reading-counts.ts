import type { Visit } from '../findings/visits.js';
import type { MoistureReading } from '../moisture/index.js';
import type { Trial } from '../trial/index.js';

/** How much of what could have been read was read, visit by visit. */
export interface CountRow {
  readonly label: string;
  /** Of the row at its fullest visit: places of a wall, or walls at a height. */
  readonly most: number;
  /** One number a visit. */
  readonly counts: readonly number[];
}

/** Places read, wall by wall, in the order of `walls.csv`; a wall that was never read has noughts. */
export function countsByWall({ walls }: Trial, visits: readonly Visit[]): readonly CountRow[] {
  return walls.map(({ wall }) =>
    countRow(
      wall,
      visits.map(({ readings }) =>
        distinct(
          readings.filter((one) => one.wall === wall),
          ({ station }) => station,
        ),
      ),
    ),
  );
}

/** Walls read at each height, from the highest; nothing where no reading has a height. */
export function countsByHeight({ stations }: Trial, visits: readonly Visit[]): readonly CountRow[] {
  const heightOf = new Map(
    stations.map(({ wall, station, height_mm }) => [JSON.stringify([wall, station]), height_mm]),
  );
  const at = ({ wall, station }: MoistureReading) => heightOf.get(JSON.stringify([wall, station]));
  const heights = new Set(visits.flatMap(({ readings }) => readings.flatMap((one) => at(one) ?? [])));
  return [...heights]
    .toSorted((one, other) => other - one)
    .map((height) =>
      countRow(
        `${height} mm`,
        visits.map(({ readings }) =>
          distinct(
            readings.filter((one) => at(one) === height),
            ({ wall }) => wall,
          ),
        ),
      ),
    );
}

function countRow(label: string, counts: readonly number[]): CountRow {
  return { label, most: Math.max(0, ...counts), counts };
}

function distinct(readings: readonly MoistureReading[], name: (reading: MoistureReading) => string): number {
  return new Set(readings.map(name)).size;
}
