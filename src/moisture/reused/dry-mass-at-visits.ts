import { checkedDayNumber } from './day-number.js';
import type { DryMass, ReusedCore } from './reused-core.js';

/** The dry mass that a core had at a visit, between two at which it was found. */
export interface InterpolatedDryMass {
  readonly dry_g: number;
  /** How uncertain the way between the two leaves it; zero on the day of a drying. */
  readonly standardUncertainty_g: number;
}

/**
 * The dry mass at each visit, or undefined after the last drying. Grains are lost by handling, so their mass goes in equal
 * steps by visit; salt comes with time, so its mass goes in a straight line by day. Where salt was not analysed, a net
 * loss is taken as grains and a net gain as salt.
 *
 * In between, any share of the loss and any share of the gain may have happened already: each is given the standard
 * uncertainty of a rectangular distribution over its whole size, size/√12 (our own rule, no source).
 */
export function dryMassAtVisits(where: string, core: ReusedCore): readonly (InterpolatedDryMass | undefined)[] {
  const days = core.weighings.map(({ day }) => checkedDayNumber(where, day));
  const dried = core.dryMasses.map((one) => ({ ...one, at: checkedDayNumber(where, one.day) }));
  return days.map((day) => {
    const next = dried.findIndex(({ at }) => at >= day);
    const [before, after] = [dried[Math.max(0, next - 1)], dried[next]];
    if (before === undefined || after === undefined) return undefined;
    if (before === after || after.at === day) return { dry_g: after.dry_g, standardUncertainty_g: 0 };
    const between = days.filter((one) => one > before.at && one <= after.at);
    const byVisit = between.filter((one) => one <= day).length / between.length;
    const byTime = (day - before.at) / (after.at - before.at);
    const { lost_g, gained_g } = partsOfChange(before, after);
    return {
      dry_g: before.dry_g - lost_g * byVisit + gained_g * byTime,
      standardUncertainty_g: Math.hypot(lost_g, gained_g) / Math.sqrt(12),
    };
  });
}

function partsOfChange(before: DryMass, after: DryMass): { readonly lost_g: number; readonly gained_g: number } {
  const net_g = after.dry_g - before.dry_g;
  const gained_g = after.saltGained_g ?? Math.max(0, net_g);
  return { lost_g: gained_g - net_g, gained_g };
}
