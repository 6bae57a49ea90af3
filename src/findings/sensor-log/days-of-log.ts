import { leastCoverage, type SensorLog, type SensorRecord, type Window } from '../../trial/index.js';

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
