import type { Window } from '../../trial/index.js';

const millisecondsADay = 86_400_000;

export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(to.slice(0, 10)) - Date.parse(from.slice(0, 10))) / millisecondsADay);
}

/** @example addDays('2024-02-28', 2) // '2024-03-01' */
export function addDays(day: string, days: number): string {
  return new Date(Date.parse(day) + days * millisecondsADay).toISOString().slice(0, 10);
}

/** @example middleDay({ from: '2024-03-01', to: '2024-03-31' }) // '2024-03-16' */
export function middleDay({ from, to }: Window): string {
  return addDays(from.slice(0, 10), Math.round(daysBetween(from, to) / 2));
}
