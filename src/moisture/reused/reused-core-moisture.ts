import { checkNotNegative, checkPositive } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import { checkedDayNumber } from './day-number.js';
import { dryMassAtVisits, type InterpolatedDryMass } from './dry-mass-at-visits.js';
import type { ReusedCore, ReusedCoreVisit } from './reused-core.js';

const where = 'reusedCoreMoisture';

/**
 * Moisture of a reused core at each visit: against its first dry mass, and corrected for lost grains and gained salt where
 * a later dry mass is known.
 *
 * With m the dry mass at the visit, u = M/m − 1. Salt that was taken up counts as dry matter, as it does when a core is
 * dried. Grains lost look like drying, salt gained looks like wetting, and both run one way, so they do not average out.
 * After the last drying the correction is not known and none is made; `hiddenDrift` says what that could hide.
 *
 * @throws MoistureError `out-of-order`, `out-of-range`, `not-finite`
 * @example
 * const dryMasses = [{ day: '2024-02-20', dry_g: 47.83 }];
 * const weighings = [{ day: '2025-03-01', mass_g: 50.2 }];
 * reusedCoreMoisture({ core: 'W01-a', dryMasses, weighings, weighing_g: 0.005 })[0].apparent_pct // 4.955
 * @source corrections: own derivation
 */
export function reusedCoreMoisture(core: ReusedCore): readonly ReusedCoreVisit[] {
  checkCore(core);
  const first_g = core.dryMasses[0].dry_g;
  const dryMasses = dryMassAtVisits(where, core);
  return core.weighings.map(({ day, mass_g }, index) => {
    const apparent_pct = 100 * (mass_g / first_g - 1);
    return { day, apparent_pct, moisture: correctedMoisture(mass_g, apparent_pct, dryMasses[index], core.weighing_g) };
  });
}

function correctedMoisture(
  mass_g: number,
  apparent_pct: number,
  dry: InterpolatedDryMass | undefined,
  weighing_g: number | undefined,
): ReusedCoreVisit['moisture'] {
  if (dry === undefined) return { kind: 'not-known', because: 'no-dry-mass-after' };
  const value_pct = 100 * (mass_g / dry.dry_g - 1);
  const correction_pp = value_pct - apparent_pct;
  const corrected = { kind: 'corrected', value_pct, dry_g: dry.dry_g, correction_pp } as const;
  if (weighing_g === undefined) return corrected;
  const ratio = mass_g / dry.dry_g;
  const dryUncertainty_g = Math.hypot(weighing_g, dry.standardUncertainty_g);
  return {
    ...corrected,
    standardUncertainty_pp: (100 * Math.hypot(weighing_g, ratio * dryUncertainty_g)) / dry.dry_g,
  };
}

function checkCore({ dryMasses, weighings, weighing_g = 0 }: ReusedCore): void {
  checkNotNegative(where, 'uncertainty of a weighing', weighing_g, 'g');
  for (const { dry_g, saltGained_g = 0 } of dryMasses) {
    checkPositive(where, 'dry mass', dry_g, 'g');
    checkNotNegative(where, 'mass of salt', saltGained_g, 'g');
  }
  for (const { mass_g } of weighings) checkPositive(where, 'mass', mass_g, 'g');
  checkOrder(
    'dry masses',
    dryMasses.map(({ day }) => day),
  );
  checkOrder(
    'weighings',
    weighings.map(({ day }) => day),
  );
}

function checkOrder(what: string, days: readonly string[]): void {
  const numbers = days.map((day) => checkedDayNumber(where, day));
  const late = numbers.findIndex((day, index) => index > 0 && day <= (numbers[index - 1] ?? 0));
  if (late > 0)
    throw new MoistureError(where, 'out-of-order', `needs ${what} in order of days, got ${days[late]} late`);
}
