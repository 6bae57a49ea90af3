import { MoistureError } from '../moisture-error.js';

const millisecondsInDay = 86_400_000;

/** Days since 1970 of an ISO day such as `2024-03-12`; anything after the tenth character is left out. */
export function dayNumber(where: string, day: string): number {
  const written = day.slice(0, 10);
  const milliseconds = /^\d{4}-\d\d-\d\d$/.test(written) ? Date.parse(`${written}T00:00:00Z`) : Number.NaN;
  if (Number.isNaN(milliseconds) || new Date(milliseconds).toISOString().slice(0, 10) !== written)
    throw new MoistureError(where, 'out-of-range', `needs days such as 2024-03-12, got "${day}"`);
  return milliseconds / millisecondsInDay;
}
