import { monthNumber } from '../../../plain/calendar.js';
import { monthNames, type Window } from '../../../trial/index.js';

/** Calendar months that a window touches, 0 for January, in the order in which they come. */
export function monthsOf({ from, to }: Window): readonly number[] {
  const first = monthNumber(from);
  const count = Math.min(12, monthNumber(to) - first + 1);
  return Array.from({ length: count }, (_, step) => (first + step) % 12);
}

/** `March`, or `March to May`. */
export function monthsInWords(window: Window): string {
  const months = monthsOf(window);
  const [first, last] = [monthNames[months[0] ?? 0], monthNames[months.at(-1) ?? 0]];
  return first === last ? `${first}` : `${first} to ${last}`;
}
