import type { Side } from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { daysBetween, isoDay } from '../../plain/days.js';
import { groupBy, valuesBy } from '../../plain/group-by.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { type Correlation, isStatisticsError, mean, spearman } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import { measuredValue } from '../../trial/measured-value.js';

/** Visits further apart than this differ by the season more than by rain (our convention). */
const mostApart_d = 62;

/** With fewer changes a correlation says nothing (our convention). */
const fewestChanges = 8;

/**
 * How the untreated walls changed from visit to visit, against the rain that fell in between, per day: Spearman’s correlation. Changes and not
 * levels, so that drying over a year and the season hardly enter. Undefined with fewer than eight changes with rain on record.
 */
export function rainAndMoisture(
  trial: Trial,
  used: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
): Correlation | undefined {
  if (trial.climate.every(({ rain_mm }) => rain_mm === undefined)) return undefined;
  const changes = changesBetweenVisits(used.filter(({ wall }) => sides.get(wall) === 'untreated'));
  const pairs = changes.flatMap(({ from, to, change }) => {
    const days = daysBetween(from, to);
    const rain_mm = days > mostApart_d ? undefined : rainBetween(trial, from, to);
    return rain_mm === undefined ? [] : [{ rain: rain_mm / days, change: change / days }];
  });
  if (pairs.length < fewestChanges) return undefined;
  return unlessRefused(isStatisticsError, () =>
    spearman(
      pairs.map(({ rain }) => rain),
      pairs.map(({ change }) => change),
    ),
  );
}

/** Means over the places read on both days; one after the other. */
function changesBetweenVisits(readings: readonly MoistureReading[]) {
  const placeOf = ({ wall, station }: MoistureReading) => JSON.stringify([wall, station]);
  const read = readings.filter(({ value }) => value.kind === 'measured');
  const byDay = new Map(
    [...groupBy(read, ({ day }) => day)].map(([day, own]) => [day, valuesBy(own, placeOf, measuredValue)]),
  );
  const days = [...byDay.keys()].sort();
  return days.slice(1).flatMap((to, at) => {
    const from = days[at];
    const [earlier, later] = [byDay.get(from ?? ''), byDay.get(to)];
    const changes = [...(later ?? [])].flatMap(([place, values]) => {
      const before = earlier?.get(place);
      return before === undefined ? [] : [mean(values) - mean(before)];
    });
    return from === undefined || changes.length === 0 ? [] : [{ from, to, change: mean(changes) }];
  });
}

/** Mean over the places with a gauge, after the first day and up to the second; undefined where none recorded any. */
function rainBetween({ climate }: Trial, from: string, to: string): number | undefined {
  const byPlace = new Map<string, number>();
  for (const { place, time, rain_mm } of climate) {
    const day = isoDay(time);
    if (rain_mm === undefined || day <= from || day > to) continue;
    byPlace.set(place, (byPlace.get(place) ?? 0) + rain_mm);
  }
  return byPlace.size === 0 ? undefined : mean([...byPlace.values()]);
}
