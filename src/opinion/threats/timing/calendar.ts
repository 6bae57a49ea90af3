import { monthNames, type Window } from '../../../trial/index.js';

/** Calendar months that a window touches, 0 for January, in the order in which they come. */
export function monthsOf({ from, to }: Window): readonly number[] {
  const index = (day: string) => Number(day.slice(0, 4)) * 12 + Number(day.slice(5, 7)) - 1;
  const count = Math.min(12, index(to) - index(from) + 1);
  return Array.from({ length: count }, (_, step) => (index(from) + step) % 12);
}

/** `March`, or `March to May`. */
export function monthsInWords(window: Window): string {
  const months = monthsOf(window);
  const [first, last] = [monthNames[months[0] ?? 0], monthNames[months.at(-1) ?? 0]];
  return first === last ? `${first}` : `${first} to ${last}`;
}
