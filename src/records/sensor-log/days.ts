export const msInHour = 3_600_000;
export const msInMinute = 60_000;

/**
 * Whether wall clocks may be changed at this time: Sundays before four in the months in which summer time begins or ends,
 * north or south (common practice, no source).
 *
 * @param local milliseconds since 1970-01-01 on the wall clock
 */
export function mayChangeClocks(local: number): boolean {
  const date = new Date(local);
  return date.getUTCDay() === 0 && date.getUTCHours() < 4 && [2, 3, 8, 9, 10].includes(date.getUTCMonth());
}
