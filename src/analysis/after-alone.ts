import { isoDay } from '../plain/days.js';
import type { Trial } from '../trial/index.js';
import { comparisonSides } from './comparison-sides.js';
import type { StationChange } from './wall-change.js';

/**
 * Whether a trial compares after values alone: its walls were randomised, and none of the comparison was read before the
 * treatment. Chance alone then set the arms apart beforehand. Chosen walls have no such ground.
 *
 * A choice of windows or readings that leaves out all before readings is no such trial: what the folder holds decides.
 */
export function comparesAfterAlone(trial: Trial, stations: readonly StationChange[]): boolean {
  const { protocol } = trial;
  if (protocol.allocation.method === 'chosen') return false;
  if (stations.some(({ before }) => before !== undefined)) return false;
  const { instrument } = protocol.outcome;
  const isWeighed = protocol.instruments.find((one) => one.instrument === instrument)?.kind === 'gravimetric';
  const isEarly = earlyDays(trial);
  const weighed = isWeighed ? trial.cores.filter(({ wet_g, dry_g }) => wet_g !== undefined && dry_g !== undefined) : [];
  const read = trial.readings.some(
    (one) => one.instrument === instrument && one.value.kind === 'measured' && isEarly(one.wall, isoDay(one.date)),
  );
  return !read && !weighed.some(({ wall, date }) => isEarly(wall, isoDay(date)));
}

/** Whether a day comes before a wall's after window and before its treatment; untreated walls count from the first treatment. */
function earlyDays({ protocol, walls }: Trial): (wall: string, day: string) => boolean {
  const sides = comparisonSides(protocol);
  const compared = walls.filter(({ arm }) => sides.has(arm));
  const first = compared.flatMap(({ treatedOn }) => treatedOn ?? []).sort()[0];
  const limits = new Map(
    compared.map(({ wall, windows = protocol.windows, treatedOn = first }) => {
      const days = [windows?.after.from, treatedOn].filter((day) => day !== undefined).sort();
      return [wall, days[0] ?? ''];
    }),
  );
  return (wall, day) => day < (limits.get(wall) ?? '');
}
