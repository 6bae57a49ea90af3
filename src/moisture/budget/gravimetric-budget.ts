import {
  type BudgetTerm,
  budgetOfDifference,
  budgetOfTerms,
  type CoverageOption,
  type UncertaintyBudget,
} from '../../statistics/index.js';
import { checkDryMass, checkFinite, checkNotNegative } from '../checked-quantity.js';
import type { CoreMasses } from '../gravimetric-moisture.js';
import { MoistureError } from '../moisture-error.js';

/** A loss of water on the way to the balance: what is expected of it is added back, and the rest is uncertain. */
export interface WaterLoss {
  /** Percentage points on the dry basis; 0 unless given. */
  readonly expected_pp?: number;
  /** Anything within the expected ± this is equally likely. */
  readonly halfWidth_pp: number;
}

/** What is known of the errors between the wall and a core's moisture content. Place-to-place variation is not here. */
export interface GravimetricErrors {
  /** Standard uncertainty of one weighing. */
  readonly weighing_g: number;
  /** How many residuals that rests on; absent where it is taken as known. */
  readonly weighingDegreesOfFreedom?: number;
  /** Water left in (or crystal water driven out) at the dry weighing, ± percent of the dry mass. */
  readonly drying_pct: number;
  /** Water that the heat of drilling drives out. */
  readonly sampling: WaterLoss;
  /** Water lost between wall and balance. */
  readonly transport: WaterLoss;
}

export type GravimetricTerm =
  | 'wet weighing'
  | 'dry weighing'
  | 'container weighing'
  | 'drying'
  | 'sampling loss'
  | 'transport loss';

/** In percent by mass on the dry basis, and percentage points. */
export type GravimetricBudget = UncertaintyBudget<GravimetricTerm>;

const rectangular = Math.sqrt(3);

/**
 * The uncertainty budget of one core's moisture content on the dry basis, in percentage points: balance (wet, dry and
 * container weighing, independent), drying, sampling loss and transport loss.
 *
 * Model: u = (A − T)/((B − T)(1 − r)) − 1 + losses, with A, B, T the wet, dry and container weighings and r the water
 * left in the dry sample as a share of it. Sensitivities at r = 0: 1/m_d, −m_w/m_d², u/m_d, 1 + u, 1 and 1.
 *
 * Variation between places in a wall is kept apart (`coreForItsWall`): an analysis with several stations already sees
 * it in their spread, and a budget that held it too would count it twice.
 *
 * @param coverage a level (0.95 unless given) or a coverage factor
 * @throws MoistureError `not-finite`, `out-of-range`; StatisticsError for a level outside 0 to 1
 * @example gravimetricBudget({ container_g: 0, wet_g: 52.36, dry_g: 47.83 }, errors, { coverageFactor: 2 }).standardUncertainty
 * @source model and numbers: own derivation after JCGM 100:2008 and EN 16682 (both from memory)
 */
export function gravimetricBudget(
  masses: CoreMasses,
  errors: GravimetricErrors,
  coverage: CoverageOption = {},
): GravimetricBudget {
  checkMasses(masses);
  checkErrors(errors);
  const { container_g, wet_g, dry_g } = masses;
  const netDry_g = dry_g - container_g;
  const ratio = (wet_g - container_g) / netDry_g;
  const terms = [
    weighing('wet weighing', wet_g, 100 / netDry_g, errors),
    weighing('dry weighing', dry_g, (-100 * ratio) / netDry_g, errors),
    // A container mass of zero means net masses: there was no third weighing.
    ...(container_g === 0 ? [] : [weighing('container weighing', container_g, (100 * (ratio - 1)) / netDry_g, errors)]),
    limited('drying', 0, errors.drying_pct, ratio),
    limited('sampling loss', errors.sampling.expected_pp ?? 0, errors.sampling.halfWidth_pp, 1),
    limited('transport loss', errors.transport.expected_pp ?? 0, errors.transport.halfWidth_pp, 1),
  ];
  const lost_pp = (errors.sampling.expected_pp ?? 0) + (errors.transport.expected_pp ?? 0);
  return budgetOfTerms(100 * (ratio - 1) + lost_pp, terms, coverage);
}

/**
 * The budget of a core's change between two visits. What erred the same way both times (the same oven and stop rule, the
 * same drill) is shared and cancels as far as the sensitivities agree; everything else adds.
 *
 * @throws StatisticsError `empty-level` where a shared term is missing from a budget
 * @example gravimetricChange(after, before, ['drying', 'sampling loss']).standardUncertainty
 */
export function gravimetricChange(
  after: GravimetricBudget,
  before: GravimetricBudget,
  shared: readonly GravimetricTerm[],
  coverage: CoverageOption = {},
): UncertaintyBudget {
  return budgetOfDifference(after, before, { shared, coverage });
}

function weighing(
  name: GravimetricTerm,
  value: number,
  sensitivity: number,
  { weighing_g, weighingDegreesOfFreedom }: GravimetricErrors,
): BudgetTerm<GravimetricTerm> {
  return {
    name,
    value,
    standardUncertainty: weighing_g,
    distribution: 'normal',
    ...(weighingDegreesOfFreedom === undefined ? {} : { degreesOfFreedom: weighingDegreesOfFreedom }),
    sensitivity,
  };
}

function limited(
  name: GravimetricTerm,
  value: number,
  halfWidth: number,
  sensitivity: number,
): BudgetTerm<GravimetricTerm> {
  return { name, value, standardUncertainty: halfWidth / rectangular, distribution: 'rectangular', sensitivity };
}

function checkMasses({ container_g, wet_g, dry_g }: CoreMasses): void {
  checkDryMass('gravimetricBudget', container_g, dry_g);
  checkFinite('gravimetricBudget', 'wet mass', wet_g);
  if (wet_g < dry_g)
    throw new MoistureError(
      'gravimetricBudget',
      'out-of-range',
      `needs a wet mass of at least the dry one, got ${wet_g} g and ${dry_g} g`,
    );
}

function checkErrors({ weighing_g, drying_pct, sampling, transport }: GravimetricErrors): void {
  checkNotNegative('gravimetricBudget', 'uncertainty of a weighing', weighing_g, 'g');
  checkNotNegative('gravimetricBudget', 'half-width for drying', drying_pct, '%');
  for (const [name, loss] of [
    ['sampling', sampling],
    ['transport', transport],
  ] as const) {
    checkNotNegative('gravimetricBudget', `half-width of the ${name} loss`, loss.halfWidth_pp, 'points');
    checkNotNegative('gravimetricBudget', `expected ${name} loss`, loss.expected_pp ?? 0, 'points');
  }
}
