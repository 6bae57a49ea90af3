import { mean } from '../statistics/index.js';
import type { Protocol } from '../trial/index.js';
import type { Side, WallChange } from './wall-change.js';

export interface ArmMeans {
  readonly arm: string;
  readonly side: Side;
  readonly walls: number;
  /** Absent where nothing was read before; `change` is then the after value. */
  readonly before?: number;
  readonly after: number;
  readonly change: number;
}

/** The plan and the walls with a change: an opinion is both. */
export interface ArmedWalls {
  readonly protocol: Pick<Protocol, 'arms'>;
  readonly walls: readonly WallChange[];
}

/**
 * Plain means over the walls of each arm, treated arms first, else in the protocol's order.
 *
 * @example armMeans(opinion).length // 1
 */
export function armMeans(opinion: ArmedWalls): readonly ArmMeans[] {
  return wallsByArm(opinion).map(({ arm, side, walls }) => {
    const before = walls.flatMap((wall) => wall.before ?? []);
    return {
      arm,
      side,
      walls: walls.length,
      ...(before.length === 0 ? {} : { before: mean(before) }),
      after: mean(walls.map((wall) => wall.after)),
      change: mean(walls.map((wall) => wall.change)),
    };
  });
}

export interface ArmWalls {
  readonly arm: string;
  readonly side: Side;
  readonly walls: readonly WallChange[];
}

/**
 * The walls of each arm that has any, treated arms first.
 *
 * @example wallsByArm(opinion).map(({ arm, walls }) => `${arm}: ${walls.length}`) // ['device: 10']
 */
export function wallsByArm(opinion: ArmedWalls): readonly ArmWalls[] {
  const arms = opinion.protocol.arms.flatMap(({ arm }) => {
    const walls = opinion.walls.filter((wall) => wall.arm === arm);
    const side = walls[0]?.side;
    return side === undefined ? [] : [{ arm, side, walls }];
  });
  return [...arms.filter((arm) => arm.side === 'treated'), ...arms.filter((arm) => arm.side === 'untreated')];
}
