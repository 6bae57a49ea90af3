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

/** What a joint test is made of. */
interface WaldOfContrasts {
  readonly wald: number;
  /** How many are tested together. */
  readonly contrasts: number;
  readonly degreesOfFreedom: number;
  /** What the statistic is multiplied by, so that its law is the F of these degrees of freedom. */
  readonly scale: number;
}

export function jointTest(where: string, { wald, contrasts, degreesOfFreedom, scale }: WaldOfContrasts): JointTest {
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
