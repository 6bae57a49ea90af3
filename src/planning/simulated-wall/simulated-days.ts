import { addDays } from '../../plain/days.js';

const firstDay = '2023-09-01';

/** Steps of the simulation. */
export const step_d = 7;
/** Half a year for the walls to come into step with the seasons, then the trial. */
export const weeks = 92;
/** Of them, those before the first window. */
export const weeksOfRunIn = 26;

export const simulatedWindows = {
  before: { from: '2024-03-01', to: '2024-05-31' },
  after: { from: '2025-03-01', to: '2025-05-31' },
} as const;

/** The week in which walls are treated. */
export const treatedWeek = 41;

/** ISO day on which a week of the simulation ends. */
export function dayOfWeek(week: number): string {
  return addDays(firstDay, week * step_d);
}

const firstWeekBefore = weeksOfRunIn + 1;
const weeksOfWindow = 13;
/** The same days of the year, to a day. */
const weeksInYear = 52;

/**
 * The weeks of visits, spread evenly over each window, on the same days of both years.
 *
 * @example visitWeeks(2) // { before: [30, 36], after: [82, 88] }
 */
export function visitWeeks(visits: number): { readonly before: readonly number[]; readonly after: readonly number[] } {
  const before = Array.from(
    { length: visits },
    (_, visit) => firstWeekBefore + Math.floor(((visit + 0.5) * weeksOfWindow) / visits),
  );
  return { before, after: before.map((week) => week + weeksInYear) };
}
