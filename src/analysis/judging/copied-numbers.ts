import { present } from '../../plain/present.js';
import type { Trial } from '../../trial/index.js';
import { type CopiedMasses, copiedMasses } from './copied-masses.js';
import { type CopiedRuns, copiedAlarm, copiedRuns } from './copied-runs.js';

export interface CopiedNumbers {
  /** Of cores; absent with fewer than two. */
  readonly masses?: CopiedMasses;
  readonly runs: CopiedRuns;
  /** The smaller of the two p-values, times two. */
  readonly pValue: number;
  /** Below 0.001: our convention. */
  readonly isAlarm: boolean;
}

/**
 * Masses of cores and runs of readings that come twice more often than the resolution and the spread make likely.
 *
 * @example copiedNumbers(trial).isAlarm // false
 * @source numbers nobody measured: Al-Marzouki, Evans, Marshall and Roberts 2005, BMJ 331:267-270, for the question; the tests are our own
 */
export function copiedNumbers(trial: Trial): CopiedNumbers {
  const masses = copiedMasses(trial.cores);
  const runs = copiedRuns(trial);
  const pValue = Math.min(1, 2 * Math.min(masses?.pValue ?? 1, runs.smallestP));
  return { ...present({ masses }), runs, pValue, isAlarm: pValue < copiedAlarm };
}
