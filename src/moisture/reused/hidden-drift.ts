import { MoistureError } from '../moisture-error.js';
import type { ReusedCore } from './reused-core.js';
import { reusedCoreMoisture } from './reused-core-moisture.js';

/** What a change of the core itself, rather than of its water, could account for. */
export interface HiddenDrift {
  readonly from: string;
  readonly to: string;
  /** Against the first dry mass. */
  readonly apparentChange_pp: number;
  /**
   * The change of dry mass between the two visits that would make the whole apparent change up: negative, grains lost
   * that look like drying; positive, salt gained that looks like wetting.
   */
  readonly explainedBy_g: number;
  /** The same in percent of the first dry mass. */
  readonly explainedBy_pct: number;
  /** How much one gram of lost dry matter lowers the last reading, in percentage points. */
  readonly perGramLost_pp: number;
}

/**
 * How little would have to happen to a core for its whole change to be an artefact: with masses M₁ and M₂ at the first and
 * last visit and first dry mass m, the moisture has not changed if the dry mass became m·M₂/M₁. To be said wherever no
 * later dry mass is known.
 *
 * @throws MoistureError `too-few` for fewer than two visits, and as `reusedCoreMoisture`
 * @example
 * const dryMasses = [{ day: '2024-02-20', dry_g: 47.83 }];
 * const weighings = [{ day: '2024-03-01', mass_g: 50.55 }, { day: '2025-03-01', mass_g: 50.2 }];
 * hiddenDrift({ core: 'W01-a', dryMasses, weighings }).explainedBy_g // -0.331, a chip of 0.33 g would look like this drying
 * @source own derivation
 */
export function hiddenDrift(core: ReusedCore): HiddenDrift {
  const visits = reusedCoreMoisture(core);
  const [first, last] = [core.weighings[0], core.weighings.at(-1)];
  const [start, end] = [visits[0], visits.at(-1)];
  if (visits.length < 2 || !first || !last || !start || !end)
    throw new MoistureError('hiddenDrift', 'too-few', `needs at least 2 visits of core ${core.core}`);
  const dry_g = core.dryMasses[0].dry_g;
  const explainedBy_g = dry_g * (last.mass_g / first.mass_g - 1);
  return {
    from: first.day,
    to: last.day,
    apparentChange_pp: end.apparent_pct - start.apparent_pct,
    explainedBy_g,
    explainedBy_pct: (100 * explainedBy_g) / dry_g,
    perGramLost_pp: (100 * (last.mass_g / dry_g)) / dry_g,
  };
}
