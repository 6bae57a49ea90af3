import { dayNumber, isIsoDay, isoDay } from '../../plain/days.js';
import { MoistureError } from '../moisture-error.js';

/** Days since 1970 of an ISO day such as `2024-03-12`; anything after the tenth character is left out. */
export function checkedDayNumber(where: string, day: string): number {
  if (!isIsoDay(isoDay(day)))
    throw new MoistureError(where, 'out-of-range', `needs days such as 2024-03-12, got "${day}"`);
  return dayNumber(day);
}
