/**
 * Seconds since 1970 of an ISO day, or day and time; a day without a time is its noon, a time without a zone counts as UTC.
 *
 * @example secondsOf('1970-01-02T00:00') // 86400
 */
export function secondsOf(time: string): number {
  const stamp = time.replace(' ', 'T');
  const isDay = stamp.length === 10;
  const hasZone = /(Z|[+-]\d\d:?\d\d)$/.test(stamp.slice(10));
  return Date.parse(isDay ? `${stamp}T12:00:00Z` : hasZone ? stamp : `${stamp}Z`) / 1000;
}
