import type { Side, WallChange } from '../../analysis/index.js';
import { mean } from '../../statistics/index.js';
import type { Opinion } from '../opinion.js';

export interface ArmMeans {
  readonly arm: string;
  readonly side: Side;
  readonly walls: number;
  /** Absent where nothing was read before; `change` is then the after value. */
  readonly before?: number;
  readonly after: number;
  readonly change: number;
}

/** Plain means over the walls of each arm, in the protocol's order of arms. */
export function armMeans(opinion: Opinion): readonly ArmMeans[] {
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

/** The walls of each arm that has any, treated arms first. */
export function wallsByArm(opinion: Opinion): readonly ArmWalls[] {
  const arms = opinion.protocol.arms.flatMap(({ arm }) => {
    const walls = opinion.walls.filter((wall) => wall.arm === arm);
    const side = walls[0]?.side;
    return side === undefined ? [] : [{ arm, side, walls }];
  });
  return [...arms.filter((arm) => arm.side === 'treated'), ...arms.filter((arm) => arm.side === 'untreated')];
}
