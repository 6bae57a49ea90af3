import { checkedResult, checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { mean } from '../summaries/mean.js';
import { variance } from '../summaries/variance.js';

/** Precision of a method at one level, read by several readers. Standard deviations in the unit of the readings. */
export interface PrecisionOfReaders {
  /** Mean of all readings, each counted once. */
  readonly mean: number;
  /** Of one reader's repeats. */
  readonly repeatability: number;
  /** Between readers; 0 where their means differ by no more than repeats explain. */
  readonly betweenReaders: number;
  /** Of single readings by different readers: both together. */
  readonly reproducibility: number;
  /** Two readings of one reader, and of two readers, differ by more than this in one case of twenty: 1.96 √2 standard deviations. */
  readonly repeatabilityLimit: number;
  readonly reproducibilityLimit: number;
  readonly readers: number;
  readonly n: number;
}

/**
 * Repeatability and reproducibility of a method from repeated readings of the same thing by several readers (the standard's
 * laboratories): s_r² pooled within readers, s_L² = (s_d² − s_r²)/n̄ between them, s_R² = s_r² + s_L².
 *
 * @param byReader the readings of each reader, all of the same thing or level
 * @throws StatisticsError `too-few` below two readers or without repeats, `not-finite`
 * @example repeatability([[4.1, 4.3], [4.6, 4.4], [4.2, 4.1]]).reproducibility // 0.2082
 * @source ISO 5725-2:1994, clause 7.4 (from memory)
 */
export function repeatability(byReader: readonly (readonly number[])[]): PrecisionOfReaders {
  const where = 'repeatability';
  if (byReader.length < 2)
    throw new StatisticsError(where, 'too-few', `needs at least 2 readers, got ${byReader.length}`);
  for (const [index, readings] of byReader.entries()) checkSample(where, `reader ${index + 1}`, readings, 1);
  const n = byReader.reduce((sum, { length }) => sum + length, 0);
  const readers = byReader.length;
  if (n === readers) throw new StatisticsError(where, 'too-few', 'needs a reader with 2 readings; read again');
  const within = byReader.reduce((sum, own) => sum + (own.length > 1 ? variance(own) * (own.length - 1) : 0), 0);
  const all = mean(byReader.flat());
  const ofMeans = byReader.reduce((sum, own) => sum + own.length * (mean(own) - all) ** 2, 0) / (readers - 1);
  const squares = byReader.reduce((sum, { length }) => sum + length * length, 0);
  const typical = (n - squares / n) / (readers - 1);
  const repeat = within / (n - readers);
  const between = Math.max(0, (ofMeans - repeat) / typical);
  const reach = 1.96 * Math.SQRT2;
  return checkedResult(where, {
    mean: all,
    repeatability: Math.sqrt(repeat),
    betweenReaders: Math.sqrt(between),
    reproducibility: Math.sqrt(repeat + between),
    repeatabilityLimit: reach * Math.sqrt(repeat),
    reproducibilityLimit: reach * Math.sqrt(repeat + between),
    readers,
    n,
  });
}
