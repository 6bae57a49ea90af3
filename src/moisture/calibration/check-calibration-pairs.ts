import { MoistureError } from '../moisture-error.js';
import type { CalibrationPair } from './calibration-pairs.js';

/** Pairs, and walls that they come from, below which there is no calibration: two make a line that nothing tests. */
export const fewestPairs = 3;

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
  if (pairs.length < fewestPairs)
    throw new MoistureError(
      where,
      'too-few',
      `needs at least ${fewestPairs} pairs of core and reading, got ${pairs.length}`,
    );
  const walls = new Set(pairs.map(({ wall }) => wall)).size;
  if (walls < fewestPairs)
    throw new MoistureError(where, 'too-few', `needs pairs from at least ${fewestPairs} walls, got ${walls}`);
  const values = (of: (pair: CalibrationPair) => number) => pairs.map(of);
  checkVaries(
    where,
    'readings of the meter',
    values(({ reading }) => reading),
  );
  checkVaries(
    where,
    'moistures of the cores',
    values(({ moisture }) => moisture),
  );
}

function checkVaries(where: string, name: string, values: readonly number[]): void {
  if (values.every((value) => value === values[0]))
    throw new MoistureError(where, 'no-variation', `needs ${name} that differ, got ${values[0]} throughout`);
}
