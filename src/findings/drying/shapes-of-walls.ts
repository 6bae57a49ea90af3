import {
  type DryingModelKind,
  dryingInterval,
  dryingOfCurve,
  isDryingError,
  type WeightedFit,
} from '../../drying/index.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import type { DryingShown, WallCurve } from './drying-part.js';

/** The shape that AICc puts first for each wall, counted; and where that has two stages, when the one gave way to the other. */
export function shapesOfWalls(curves: readonly WallCurve[], level: number): Pick<DryingShown, 'shapes' | 'changes'> {
  const best = curves.map((curve) => ({ wall: curve.wall, fit: bestFit(curve) }));
  const counts = new Map<DryingModelKind | 'none', number>();
  for (const { fit } of best) {
    const shape = fit?.kind ?? 'none';
    counts.set(shape, (counts.get(shape) ?? 0) + 1);
  }
  return {
    shapes: [...counts].map(([shape, walls]) => ({ shape, walls })).sort((one, other) => other.walls - one.walls),
    changes: best.flatMap(({ wall, fit }) => {
      const day = fit?.kind === 'two-stage' ? fit.estimates.change_d : undefined;
      if (fit === undefined || day === undefined) return [];
      const interval = dryingInterval(fit, 'change_d', level);
      return [{ wall, day, ...(typeof interval === 'string' ? {} : { interval }) }];
    }),
  };
}

function bestFit(curve: WallCurve): WeightedFit | undefined {
  return unlessRefused(isDryingError, () => dryingOfCurve(curve).fits[0]);
}
