import { fisherF } from '../../distributions/fisher-f.js';
import { StatisticsError } from '../../statistics-error.js';

/** Several contrasts of the fixed effects tested together against zero. */
export interface JointTest {
  /** F statistic, already multiplied by its scale. */
  readonly statistic: number;
  /** What the Wald statistic over the number of contrasts was multiplied by; 1 unless the method scales it. */
  readonly scale: number;
  readonly numeratorDegreesOfFreedom: number;
  readonly denominatorDegreesOfFreedom: number;
  readonly pValue: number;
}

export function jointTest(
  where: string,
  wald: number,
  contrasts: number,
  degreesOfFreedom: number,
  scale: number,
): JointTest {
  if (!(degreesOfFreedom > 0 && scale > 0 && Number.isFinite(scale))) {
    const detail = `needs units enough to judge ${contrasts} contrasts together: the approximate degrees of freedom are ${degreesOfFreedom}; test fewer contrasts or add units`;
    throw new StatisticsError(where, 'too-few', detail);
  }
  const statistic = (scale * wald) / contrasts;
  return {
    statistic,
    scale,
    numeratorDegreesOfFreedom: contrasts,
    denominatorDegreesOfFreedom: degreesOfFreedom,
    pValue: fisherF(contrasts, degreesOfFreedom).upperTail(statistic),
  };
}
