import {
  type DryingModelKind,
  dryingInterval,
  dryingOfCurve,
  isDryingError,
  type WeightedFit,
} from '../../drying/index.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import type { DryingShown, WallCurve } from './drying-part.js';

/** A wall's curve with the shapes that could be fitted to it, the best first: none where it does not fall beyond the scatter of its readings. */
export interface FittedWall {
  readonly curve: WallCurve;
  readonly fits: readonly WeightedFit[];
}

export function fitsOfWalls(curves: readonly WallCurve[]): readonly FittedWall[] {
  return curves.map((curve) => ({
    curve,
    fits: unlessRefused(isDryingError, () => dryingOfCurve(curve).fits) ?? [],
  }));
}

/** The shape that AICc puts first for each wall, counted; and where that has two stages, when the one gave way to the other. */
export function shapesOfWalls(walls: readonly FittedWall[], level: number): Pick<DryingShown, 'shapes' | 'changes'> {
  const counts = new Map<DryingModelKind | 'none', number>();
  for (const { fits } of walls) {
    const shape = fits[0]?.kind ?? 'none';
    counts.set(shape, (counts.get(shape) ?? 0) + 1);
  }
  return {
    shapes: [...counts].map(([shape, walls]) => ({ shape, walls })).sort((one, other) => other.walls - one.walls),
    changes: walls.flatMap(({ curve: { wall }, fits: [fit] }) => {
      const day = fit?.kind === 'two-stage' ? fit.estimates.change_d : undefined;
      if (fit === undefined || day === undefined) return [];
      const interval = dryingInterval(fit, 'change_d', level);
      return [{ wall, day, ...(typeof interval === 'string' ? {} : { interval }) }];
    }),
  };
}
