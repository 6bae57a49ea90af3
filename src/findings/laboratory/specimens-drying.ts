import { isDryingError, specimenDryingRates } from '../../drying/index.js';
import { daysBetween, isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { type Interval, isStatisticsError } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';

/** A specimen that dried after its tray was emptied, in two stages: at a constant rate, then by the root of time. */
export interface SpecimenDrying {
  readonly wall: string;
  readonly arm: string;
  /** Day on which the tray stood empty. */
  readonly emptiedOn: string;
  readonly weighings: number;
  /** Absent where the weighings do not show both stages. */
  readonly stages?: {
    /** g a day. */
    readonly first_g_d: number;
    readonly firstInterval: Interval;
    /** g per root of a day. */
    readonly second_g_d05: number;
    /** Days since the tray was emptied, at which the second stage begins. */
    readonly change_d: number;
    readonly changeInterval: Interval;
  };
}

/** Fewer weighings do not hold two lines and the break between them (our convention). */
const fewestWeighings = 6;

/** Of every specimen that was weighed at least six times from the day its tray stood empty. */
export function specimensDrying({ trays = [], walls, protocol }: Trial): readonly SpecimenDrying[] {
  return walls.flatMap(({ wall, arm }) => {
    const weighed = trays
      .flatMap(({ wall: of, date, level_mm, mass_kg }) =>
        of === wall && level_mm === 0 && mass_kg !== undefined ? [{ day: isoDay(date), mass_kg }] : [],
      )
      .sort((one, other) => (one.day < other.day ? -1 : 1));
    const [first] = weighed;
    if (first === undefined || weighed.length < fewestWeighings) return [];
    const specimen = { wall, arm, emptiedOn: first.day, weighings: weighed.length };
    const stages = stagesOf(weighed, protocol.confidence);
    return [{ ...specimen, ...present({ stages }) }];
  });
}

function stagesOf(
  weighed: readonly { readonly day: string; readonly mass_kg: number }[],
  level: number,
): SpecimenDrying['stages'] {
  const hours = weighed.map(({ day }) => 24 * daysBetween(weighed[0]?.day ?? day, day));
  return unlessRefused(
    (error) => isDryingError(error) || isStatisticsError(error),
    () => {
      // No area is on record: what a square metre would lose is here what the specimen loses, and rates need no dry mass.
      const rates = specimenDryingRates(
        { times_h: hours, water_kg_m2: weighed.map(({ mass_kg }) => mass_kg) },
        { level },
      );
      const { d1, d2, knick } = rates;
      const perDay = 24 * 1000;
      return {
        first_g_d: d1.estimate * perDay,
        firstInterval: { level, lower: d1.interval.lower * perDay, upper: d1.interval.upper * perDay },
        second_g_d05: d2.estimate * 1000 * Math.sqrt(24),
        change_d: knick.time_h / 24,
        changeInterval: { level, lower: knick.interval_h.lower / 24, upper: knick.interval_h.upper / 24 },
      };
    },
  );
}
