import { MoistureError } from '../moisture-error.js';
import type { CalibrationPair } from './calibration-pairs.js';

/** Refuses pairs that no calibration can be made of. */
export function checkCalibrationPairs(where: string, pairs: readonly CalibrationPair[]): void {
  const materials = [...new Set(pairs.map(({ material }) => material))];
  if (materials.length > 1) {
    const named = materials.map((material) => material || 'unnamed').join(', ');
    throw new MoistureError(
      where,
      'materials-differ',
      `needs cores of one material, got ${named}; calibrate each by itself`,
    );
  }
  if (pairs.length < 3)
    throw new MoistureError(where, 'too-few', `needs at least 3 pairs of core and reading, got ${pairs.length}`);
  const walls = new Set(pairs.map(({ wall }) => wall)).size;
  if (walls < 3) throw new MoistureError(where, 'too-few', `needs pairs from at least 3 walls, got ${walls}`);
  for (const [name, values] of [
    ['readings of the meter', pairs.map(({ reading }) => reading)],
    ['moistures of the cores', pairs.map(({ moisture }) => moisture)],
  ] as const) {
    if (values.every((value) => value === values[0]))
      throw new MoistureError(where, 'no-variation', `needs ${name} that differ, got ${values[0]} throughout`);
  }
}
