import { variance } from '../../statistics/index.js';

export interface DatedValue {
  /** ISO day. */
  readonly day: string;
  readonly value: number;
}

/** With fewer repeats a variance may be anything: our convention. */
export const fewestRepeats = 10;

/** Standard deviation of readings repeated at one place on one day, pooled; nothing where there are fewer than ten repeats. */
export function scatterOfRepeats(places: readonly (readonly DatedValue[])[]): number | undefined {
  let [squares, repeats] = [0, 0];
  for (const values of places) {
    const days = new Map<string, number[]>();
    for (const { day, value } of values) {
      const own = days.get(day);
      if (own === undefined) days.set(day, [value]);
      else own.push(value);
    }
    for (const own of days.values()) {
      if (own.length < 2) continue;
      squares += variance(own) * (own.length - 1);
      repeats += own.length - 1;
    }
  }
  return repeats >= fewestRepeats && squares > 0 ? Math.sqrt(squares / repeats) : undefined;
}
