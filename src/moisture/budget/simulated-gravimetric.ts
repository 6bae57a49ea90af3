import { type MonteCarloOptions, type MonteCarloResult, monteCarloUncertainty } from '../../statistics/index.js';
import type { CoreMasses } from '../core-masses.js';
import { gravimetricBudget } from './gravimetric-budget.js';
import type { GravimetricErrors, GravimetricTerm } from './gravimetric-errors.js';

/**
 * The same core and the same errors as `gravimetricBudget`, but with every error drawn from its distribution and the
 * model in full, not its slopes: the check of the budget.
 *
 * @throws as `gravimetricBudget`; StatisticsError where a draw has no result
 * @example simulatedGravimetric(core, errors, { seed: 20240201, trials: 10_000 }).standardUncertainty // 0.1843
 * @source JCGM 101:2008 (from memory)
 */
export function simulatedGravimetric(
  masses: CoreMasses,
  errors: GravimetricErrors,
  options: MonteCarloOptions<GravimetricTerm>,
): MonteCarloResult {
  const inputs = gravimetricBudget(masses, errors).rows;
  const model = (x: Readonly<Record<GravimetricTerm, number>>): number => {
    const container_g = masses.container_g === 0 ? 0 : x['container weighing'];
    const dryMatter_g = (x['dry weighing'] - container_g) * (1 - x.drying / 100);
    const kept = errors.drilling === undefined ? 1 : 1 - x['drilling loss'] / 100;
    return (
      (100 * ((x['wet weighing'] - container_g) / dryMatter_g - 1)) / kept + x['sampling loss'] + x['transport loss']
    );
  };
  return monteCarloUncertainty(model, inputs, options);
}
