import { checkFinite, checkPositive } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import { StatisticsError } from '../../statistics-error.js';

export interface SelectionByValue {
  /** Mean of all units that might have been selected. */
  readonly mean: number;
  /** Standard deviation of single measurements of them, between units and within. */
  readonly standardDeviation: number;
  /** Share of the variance of a single measurement that lies between units: their intraclass correlation, 0 to 1. */
  readonly reliability: number;
  /** Units were selected beyond this value. */
  readonly cutoff: number;
  /** On which side of the cutoff. */
  readonly selected: 'above' | 'below';
  /** Measurements averaged for the selection; 1 unless told. */
  readonly measurements?: number;
}

export interface RegressionToTheMean {
  readonly kind: 'regression-to-the-mean';
  /** By how much the selected units' mean falls back towards the mean of all, with nothing done to them; not negative. */
  readonly expected: number;
  /** Mean of the selected units when they were selected. */
  readonly selectedMean: number;
  /** Mean of the same units when measured again. */
  readonly meanAgain: number;
}

/**
 * How much units picked for an extreme value are expected to fall back towards the mean of all when measured again:
 * (w^2 / m) / sqrt(b^2 + w^2 / m) C(z), with b^2 and w^2 the variance between and within units, m measurements averaged for
 * the selection, z the cutoff in standard deviations of their mean and C(z) = density(z) / upper tail(z) of the normal.
 *
 * The standard deviation in z is that of the mean on which units were selected; a script in circulation takes that of a
 * single measurement for any m, which is right for m = 1 only. Values are taken as normal.
 *
 * @throws StatisticsError `out-of-range`, `not-finite`
 * @example regressionToTheMean({ mean: 7, standardDeviation: 3, reliability: 0.7, cutoff: 10, selected: 'above' }).expected // 1.373
 * @source Barnett, van der Pols and Dobson 2005, Int. J. Epidemiol. 34:215-220
 */
export function regressionToTheMean(selection: SelectionByValue): RegressionToTheMean {
  const where = 'regressionToTheMean';
  const { mean, standardDeviation, reliability, cutoff, selected, measurements = 1 } = selection;
  checkFinite(where, 'mean', mean);
  checkFinite(where, 'cutoff', cutoff);
  checkPositive(where, 'standardDeviation', standardDeviation);
  if (!(reliability >= 0 && reliability <= 1)) {
    throw new StatisticsError(where, 'out-of-range', `needs a reliability from 0 to 1, got ${reliability}`);
  }
  if (!Number.isSafeInteger(measurements) || measurements < 1) {
    throw new StatisticsError(
      where,
      'out-of-range',
      `needs a whole number of measurements from 1, got ${measurements}`,
    );
  }
  const within = (1 - reliability) / measurements;
  const spread = standardDeviation * Math.sqrt(reliability + within);
  if (!(spread > 0)) {
    throw new StatisticsError(where, 'out-of-range', 'needs a standard deviation that doubles can reckon with');
  }
  const sign = selected === 'above' ? 1 : -1;
  const z = (sign * (cutoff - mean)) / spread;
  const away = spread * excessBeyond(z);
  const expected = away * (within / (reliability + within));
  const result = { expected, selectedMean: mean + sign * away, meanAgain: mean + sign * (away - expected) };
  if (!Object.values(result).every(Number.isFinite)) {
    throw new StatisticsError(
      where,
      'out-of-range',
      `needs a cutoff that some units reach, got one ${z} deviations out`,
    );
  }
  return { kind: 'regression-to-the-mean', ...result };
}

/** Mean of a standard normal value beyond z. */
function excessBeyond(z: number): number {
  const standard = normal();
  return standard.density(z) / standard.upperTail(z);
}
