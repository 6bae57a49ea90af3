import { leastCoverage, type SensorLog, type SensorRecord, type Window } from '../../trial/index.js';

const dayLength = 86_400_000;

/** First and last day on which any sensor gave a reading that counts; undefined for a log without one. */
export function spanOfLog({ sensors }: SensorLog): Window | undefined {
  let [from, to] = ['', ''];
  for (const { days } of sensors) {
    for (const { day } of days) {
      if (from === '' || day < from) from = day;
      if (day > to) to = day;
    }
  }
  return from === '' ? undefined : { from, to };
}

/** Days of a sensor’s log whose mean counts. */
export function usedDays({ days }: SensorRecord): SensorRecord['days'] {
  return days.filter(({ coverage }) => coverage >= leastCoverage);
}

/** How much is wrong with a sensor’s part, to put the worst first. */
export function faultsOf({ gaps, stuck, spikes, steps }: SensorRecord): number {
  return gaps.missing + stuck.readings + spikes.count + steps.count;
}

/** Every ISO day of a window. */
export function daysOfWindow({ from, to }: Window): readonly string[] {
  const first = Date.parse(`${from}T00:00:00Z`);
  const count = Math.round((Date.parse(`${to}T00:00:00Z`) - first) / dayLength) + 1;
  return Array.from({ length: Math.max(0, count) }, (_, day) =>
    new Date(first + day * dayLength).toISOString().slice(0, 10),
  );
}
