import { checkFinite, checkPositive } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import { StatisticsError } from '../../statistics-error.js';

/**
 * What is believed of the effect before the data.
 *
 * - `reference`: all effects alike, so that the data speak alone;
 * - `normal`: around a mean, for instance from earlier trials;
 * - `sceptical`: around zero, with a stated small probability of an effect beyond the margin in the stated direction.
 */
export type Prior =
  | { readonly kind: 'reference' }
  | { readonly kind: 'normal'; readonly mean: number; readonly standardDeviation: number }
  | { readonly kind: 'sceptical'; readonly margin: number; readonly probabilityBeyond: number };

/** A prior that is a normal distribution. */
export interface NormalPrior {
  readonly mean: number;
  readonly standardDeviation: number;
}

/**
 * The normal distribution that a prior stands for; absent for the reference prior. The sceptical one is that of Spiegelhalter,
 * Freedman and Parmar (1994, J. R. Stat. Soc. A 157:357-416): mean zero, and the standard deviation that leaves the stated
 * probability beyond the margin.
 *
 * @throws StatisticsError `out-of-range` for a spread that is not positive or a probability outside 0 to 0.5, `not-finite`
 * @example normalPrior({ kind: 'sceptical', margin: 2, probabilityBeyond: 0.05 })?.standardDeviation // 1.216
 */
export function normalPrior(prior: Prior): NormalPrior | undefined {
  switch (prior.kind) {
    case 'reference':
      return undefined;
    case 'normal':
      checkFinite('normalPrior', 'prior mean', prior.mean);
      checkPositive('normalPrior', 'prior standard deviation', prior.standardDeviation);
      return { mean: prior.mean, standardDeviation: prior.standardDeviation };
    case 'sceptical': {
      checkPositive('normalPrior', 'margin', prior.margin);
      if (!(prior.probabilityBeyond > 0 && prior.probabilityBeyond < 0.5)) {
        const what = `needs a probability between 0 and 0.5 beyond the margin, got ${prior.probabilityBeyond}`;
        throw new StatisticsError('normalPrior', 'out-of-range', what);
      }
      return { mean: 0, standardDeviation: prior.margin / normal().upperQuantile(prior.probabilityBeyond) };
    }
  }
}
