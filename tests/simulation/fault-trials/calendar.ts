const day_ms = 86_400_000;

/** `dayAfter('2024-02-28', 2)` is `2024-03-01`. */
export function dayAfter(day: string, days: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * day_ms).toISOString().slice(0, 10);
}

export function daysFrom(first: string, last: string): number {
  return Math.round((Date.parse(`${last}T00:00:00Z`) - Date.parse(`${first}T00:00:00Z`)) / day_ms);
}

/** Every so many days from the first to the last, both included where they fall on one. */
export function everyDays(first: string, last: string, step: number): string[] {
  return Array.from({ length: Math.floor(daysFrom(first, last) / step) + 1 }, (_, at) => dayAfter(first, at * step));
}
