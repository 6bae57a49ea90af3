import { valuesBy } from '../../plain/group-by.js';
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
    for (const own of valuesBy(
      values,
      ({ day }) => day,
      ({ value }) => value,
    ).values()) {
      if (own.length < 2) continue;
      squares += variance(own) * (own.length - 1);
      repeats += own.length - 1;
    }
  }
  return repeats >= fewestRepeats && squares > 0 ? Math.sqrt(squares / repeats) : undefined;
}
