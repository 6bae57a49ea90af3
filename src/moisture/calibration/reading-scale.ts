import type { ReadingScale } from '../../trial/index.js';
import { MoistureError } from '../moisture-error.js';
import type { CalibrationPair } from './calibration-pair.js';

/**
 * A meter's reading as its calibration takes it: as it stands, or its base-10 logarithm where readings run over decades, as ohms do.
 *
 * @throws MoistureError `out-of-range` for a reading that is not above zero on a logarithmic scale
 * @example readingOnScale(1000, 'logarithmic') // 3
 */
export function readingOnScale(reading: number, scale: ReadingScale): number {
  if (scale === 'linear') return reading;
  if (reading > 0) return Math.log10(reading);
  const detail = `needs readings above 0 on a logarithmic scale, got ${reading}; a meter that can show 0 has a linear one`;
  throw new MoistureError('readingOnScale', 'out-of-range', detail);
}

/** Back from the scale to what the meter shows. */
export function readingFromScale(onScale: number, scale: ReadingScale): number {
  return scale === 'linear' ? onScale : 10 ** onScale;
}

/**
 * The pairs with their readings, and the uncertainties of these, on the scale of the calibration.
 *
 * @throws MoistureError as `readingOnScale`
 * @example pairsOnScale([{ ...pairs[0], reading: 100 }], 'logarithmic')[0].reading // 2
 */
export function pairsOnScale(pairs: readonly CalibrationPair[], scale: ReadingScale): readonly CalibrationPair[] {
  if (scale === 'linear') return pairs;
  return pairs.map(({ readingUncertainty, ...pair }) => ({
    ...pair,
    reading: readingOnScale(pair.reading, scale),
    // d log₁₀ x = dx/(x ln 10)
    ...(readingUncertainty === undefined
      ? {}
      : { readingUncertainty: readingUncertainty / (pair.reading * Math.LN10) }),
  }));
}
