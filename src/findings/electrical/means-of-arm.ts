import type { Side } from '../../analysis/index.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import type { ElectricalWall } from './electrical-of-trial.js';

/** Means over the walls of an arm with a row in `electrical.csv`; each wall counts once, by the mean over its circuits. */
export interface ElectricalArm {
  readonly arm: string;
  /** Absent where the arm takes no part in the comparison. */
  readonly side?: Side;
  readonly walls: number;
  readonly charge_c: number;
  /** Mean current while on, summed over the circuits of a wall. */
  readonly current_a: number;
  /** Absent where no wall has one; so are the two below. */
  readonly onShare?: number;
  readonly currentKept?: number;
  readonly reversedShare?: number;
}

/** Treated arms first, then untreated ones, then those that take no part. */
export function meansByArm(walls: readonly ElectricalWall[]): readonly ElectricalArm[] {
  const sides = ['treated', 'untreated', undefined] as const;
  const sorted = sides.flatMap((side) => walls.filter((wall) => wall.side === side));
  return [...new Set(sorted.map(({ arm }) => arm))].map((arm) => {
    const own = walls.filter((wall) => wall.arm === arm);
    const side = own.find((wall) => wall.side !== undefined)?.side;
    return { arm, ...present({ side }), ...meansOf(own) };
  });
}

/** The same over the walls of a side; undefined where none has a row. */
export function meansOfSide(walls: readonly ElectricalWall[], side: Side) {
  const own = walls.filter((wall) => wall.side === side);
  return own.length === 0 ? undefined : meansOf(own);
}

function meansOf(walls: readonly ElectricalWall[]): Omit<ElectricalArm, 'arm' | 'side'> {
  const onShare = meanOf(walls.map((wall) => wall.onShare));
  const currentKept = meanOf(walls.map(keptOfWall));
  const reversedShare = meanOf(walls.map(reversedOfWall));
  return {
    walls: walls.length,
    charge_c: mean(walls.map(({ charge_c }) => charge_c)),
    current_a: mean(walls.map(({ current_a }) => current_a)),
    ...present({ onShare, currentKept, reversedShare }),
  };
}

/** Mean over the circuits that have one. */
function keptOfWall({ circuits }: ElectricalWall): number | undefined {
  return meanOf(circuits.map(({ currentKept }) => currentKept));
}

/** Mean over the circuits that have one. */
function reversedOfWall({ circuits }: ElectricalWall): number | undefined {
  return meanOf(circuits.map(({ reversedShare }) => reversedShare));
}

function meanOf(values: readonly (number | undefined)[]): number | undefined {
  const stated = values.filter((value) => value !== undefined);
  return stated.length === 0 ? undefined : mean(stated);
}
