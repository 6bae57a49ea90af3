import { daysInMonth } from '../../plain/calendar.js';
import { checkPositive } from '../checked-quantity.js';

/**
 * How long the trade waits before it judges whether a wall has dried: a month for every 25 mm of thickness. A prompt for the
 * calendar and never a test: drying times grow with the square of the thickness, not with the thickness.
 *
 * @returns days
 * @throws DryingError `out-of-range`
 * @example naturalDryingPrompt_d(225) // 274
 * @source common practice, no source
 */
export function naturalDryingPrompt_d(thickness_mm: number): number {
  checkPositive('naturalDryingPrompt_d', 'thickness', thickness_mm, 'mm');
  return Math.round((thickness_mm / 25) * daysInMonth);
}
