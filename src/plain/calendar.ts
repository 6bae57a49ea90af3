/** Mean length of a year of the calendar in use: 97 leap years in 400. */
export const daysInYear = 365.2425;

/** Mean length of a month as the simpler calendar has it, with a leap year in four: 365.25 / 12. */
export const daysInMonth = 30.4375;

/**
 * Months since January of the year 0 of an ISO date, so that the difference of two is how many months lie between; its remainder by 12
 * is the month of the year, 0 for January.
 *
 * @example monthNumber('2024-03-12') % 12 // 2
 */
export function monthNumber(date: string): number {
  return Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7)) - 1;
}

/**
 * How many days a month has, 1 for January.
 *
 * @example lengthOfMonth(2024, 2) // 29
 */
export function lengthOfMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/**
 * The same day of the year so many years later.
 *
 * @param leapDay what becomes of 29 February in a year without one: `before` is 28 February, `after` is 1 March
 * @example yearsLater('2024-02-29', 1, 'before') // '2025-02-28'
 */
export function yearsLater(day: string, years: number, leapDay: 'before' | 'after'): string {
  const year = Number(day.slice(0, 4)) + years;
  const [name, ofYear] = [String(year).padStart(4, '0'), day.slice(5, 10)];
  if (ofYear !== '02-29' || lengthOfMonth(year, 2) === 29) return `${name}-${ofYear}`;
  return `${name}-${leapDay === 'before' ? '02-28' : '03-01'}`;
}
