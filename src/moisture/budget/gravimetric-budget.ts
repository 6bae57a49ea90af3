import { type BudgetTerm, budgetOfTerms, type CoverageOption, type UncertaintyBudget } from '../../statistics/index.js';
import { type CoreMasses, checkMasses } from '../core-masses.js';
import {
  checkErrors,
  drillingFactor,
  type GravimetricErrors,
  type GravimetricTerm,
  type ShareLost,
} from './gravimetric-errors.js';
import { gravimetricSlopes } from './gravimetric-slopes.js';

/** In percent by mass on the dry basis, and percentage points. */
export type GravimetricBudget = UncertaintyBudget<GravimetricTerm>;

const rectangular = Math.sqrt(3);

/**
 * The uncertainty budget of one core's moisture content on the dry basis, in percentage points: balance (wet, dry and
 * container weighing, independent), drying, the share of the water lost in drilling, sampling loss and transport loss.
 *
 * Model: u = ((A − T)/((B − T)(1 − r)) − 1)/(1 − f) + losses, with A, B, T the wet, dry and container weighings and r the water
 * left in the dry sample as a share of it, and f the share of its water that it lost in drilling. Sensitivities at r = 0 and f = 0: 1/m_d,
 * −m_w/m_d², u/m_d, 1 + u, u, 1 and 1; with f all but the last two carry 1/(1 − f), and that of f is u/(1 − f)².
 *
 * Variation between places in a wall is kept apart (`coreForItsWall`): an analysis with several stations already sees
 * it in their spread, and a budget that held it too would count it twice.
 *
 * @param coverage a level (0.95 unless given) or a coverage factor
 * @throws MoistureError `not-finite`, `out-of-range`; StatisticsError for a level outside 0 to 1
 * @example gravimetricBudget(core, errors, { coverageFactor: 2 }).standardUncertainty // 0.185
 * @source model and numbers: own derivation after JCGM 100:2008 and EN 16682 (both from memory)
 */
export function gravimetricBudget(
  masses: CoreMasses,
  errors: GravimetricErrors,
  coverage: CoverageOption = {},
): GravimetricBudget {
  checkErrors('gravimetricBudget', errors);
  checkMasses('gravimetricBudget', masses, errors.weighing_g);
  const { container_g, wet_g, dry_g } = masses;
  const slopes = gravimetricSlopes(masses);
  const factor = drillingFactor(errors);
  const held_pct = factor * slopes.moisture_pct;
  const terms = [
    weighing('wet weighing', wet_g, factor * slopes.wet, errors),
    weighing('dry weighing', dry_g, factor * slopes.dry, errors),
  ];
  // A container mass of zero means net masses: there was no third weighing.
  if (container_g > 0) terms.push(weighing('container weighing', container_g, factor * slopes.container, errors));
  terms.push(
    limited('drying', 0, errors.drying_pct, factor * slopes.drying),
    ...(errors.drilling === undefined ? [] : [shareLost(errors.drilling, (factor * held_pct) / 100)]),
    limited('sampling loss', errors.sampling.expected_pp ?? 0, errors.sampling.halfWidth_pp, 1),
    limited('transport loss', errors.transport.expected_pp ?? 0, errors.transport.halfWidth_pp, 1),
  );
  const lost_pp = (errors.sampling.expected_pp ?? 0) + (errors.transport.expected_pp ?? 0);
  return budgetOfTerms(held_pct + lost_pp, terms, coverage);
}

function weighing(
  name: GravimetricTerm,
  value: number,
  sensitivity: number,
  { weighing_g, weighingDegreesOfFreedom }: GravimetricErrors,
): BudgetTerm<GravimetricTerm> {
  const term = { name, value, standardUncertainty: weighing_g, distribution: 'normal', sensitivity } as const;
  return weighingDegreesOfFreedom === undefined ? term : { ...term, degreesOfFreedom: weighingDegreesOfFreedom };
}

function limited(
  name: GravimetricTerm,
  value: number,
  halfWidth: number,
  sensitivity: number,
): BudgetTerm<GravimetricTerm> {
  return { name, value, standardUncertainty: halfWidth / rectangular, distribution: 'rectangular', sensitivity };
}

function shareLost(
  { expected_pct = 0, standardUncertainty_pct }: ShareLost,
  sensitivity: number,
): BudgetTerm<GravimetricTerm> {
  return {
    ...{ name: 'drilling loss', value: expected_pct, standardUncertainty: standardUncertainty_pct },
    ...{ distribution: 'normal', sensitivity },
  };
}
