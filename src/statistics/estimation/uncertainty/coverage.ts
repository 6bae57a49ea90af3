import { checkLevel, checkPositive } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import { studentT } from '../../distributions/student-t.js';
import type { Coverage, CoverageOption } from './budget.js';

const standardNormal = normal();

/**
 * The interval value ± k·u. From a level, k is Student's quantile at the effective degrees of freedom (not truncated to
 * a whole number), or the normal quantile where there are none.
 *
 * @source JCGM 100:2008, G.3 and G.4 (from memory)
 */
export function coverageOf(
  where: string,
  result: {
    readonly value: number;
    readonly standardUncertainty: number;
    readonly degreesOfFreedom: number | undefined;
  },
  option: CoverageOption,
): Coverage {
  const { value, standardUncertainty, degreesOfFreedom } = result;
  if ('coverageFactor' in option) {
    checkPositive(where, 'coverage factor', option.coverageFactor);
    const expandedUncertainty = option.coverageFactor * standardUncertainty;
    const [lower, upper] = [value - expandedUncertainty, value + expandedUncertainty];
    return { factor: option.coverageFactor, expandedUncertainty, lower, upper };
  }
  const level = option.level ?? 0.95;
  checkLevel(where, level);
  const distribution = degreesOfFreedom === undefined ? standardNormal : studentT(degreesOfFreedom);
  const factor = distribution.upperQuantile((1 - level) / 2);
  const expandedUncertainty = factor * standardUncertainty;
  const [lower, upper] = [value - expandedUncertainty, value + expandedUncertainty];
  return { factor, level, expandedUncertainty, lower, upper };
}
