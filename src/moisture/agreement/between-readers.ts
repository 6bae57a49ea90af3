import { groupBy, valuesBy } from '../../plain/group-by.js';
import { isStatisticsError, type PrecisionOfReaders, repeatability } from '../../statistics/index.js';
import { measuredValue } from '../../trial/measured-value.js';
import { MoistureError } from '../moisture-error.js';
import type { MoistureReading } from '../moisture-reading.js';

/** How far readings of the same place on the same day differ, by one reader and between readers. In the instrument's unit. */
export interface BetweenReaders
  extends Pick<PrecisionOfReaders, 'repeatability' | 'betweenReaders' | 'reproducibility'> {
  /** Two readings of two readers differ by more than this in one case of twenty. */
  readonly reproducibilityLimit: number;
  /** Places and days that at least two readers read, one of them twice. */
  readonly places: number;
  readonly readers: number;
}

/**
 * Repeatability and reproducibility of an instrument over all places and days that several readers read: the variances of each
 * (ISO 5725-2, the place being the level), averaged. Assumes that they do not grow with the level.
 *
 * @throws MoistureError `too-few` where no place was read by two readers on one day, one of them twice
 * @example
 * const place = readings.find(({ instrument }) => instrument === 'microwave');
 * const read = (reader, value) => ({ ...place, reader, value: { kind: 'measured', value } });
 * betweenReaders([read('R1', 52), read('R1', 53), read('R2', 55), read('R2', 54)], 'microwave').reproducibility // 1.5
 * @source ISO 5725-2:1994, clause 7.4 (from memory)
 */
export function betweenReaders(readings: readonly MoistureReading[], instrument: string): BetweenReaders {
  const where = 'betweenReaders';
  const names = new Set<string>();
  const visits = groupBy(readings, ({ wall, station, day, reader, value, instrument: own }) =>
    own !== instrument || reader === undefined || value.kind !== 'measured'
      ? undefined
      : JSON.stringify([wall, station, day]),
  );
  const found: PrecisionOfReaders[] = [];
  for (const visit of visits.values()) {
    const byReader = valuesBy(visit, ({ reader }) => reader, measuredValue);
    const one = precisionOf([...byReader.values()]);
    if (one === undefined) continue;
    found.push(one);
    for (const name of byReader.keys()) names.add(name);
  }
  if (found.length === 0) {
    const detail = `needs a place that two readers read on one day, one of them twice, found none with ${instrument}; read again`;
    throw new MoistureError(where, 'too-few', detail);
  }
  const pooled = (of: (one: PrecisionOfReaders) => number) =>
    Math.sqrt(found.reduce((sum, one) => sum + of(one) ** 2, 0) / found.length);
  const reproducibility = pooled((one) => one.reproducibility);
  return {
    repeatability: pooled((one) => one.repeatability),
    betweenReaders: pooled((one) => one.betweenReaders),
    reproducibility,
    reproducibilityLimit: 1.96 * Math.SQRT2 * reproducibility,
    places: found.length,
    readers: names.size,
  };
}

function precisionOf(byReader: readonly (readonly number[])[]): PrecisionOfReaders | undefined {
  // Most places have one reader a day, and an error for each of them would cost more than all the rest.
  if (byReader.length < 2) return undefined;
  try {
    return repeatability(byReader);
  } catch (error) {
    if (isStatisticsError(error) && error.fault === 'too-few') return undefined;
    throw error;
  }
}
