import { checkList, checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';

/** Two measurements of the same things, one value each in the same order. */
export interface MeasuredPairs {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** Refuses pairs through which no line can be drawn with an uncertainty. */
export function checkPairs(where: string, { x, y }: MeasuredPairs): void {
  checkSample(where, 'x', x, 3);
  checkSample(where, 'y', y, 3);
  sameLength(where, 'y', y, x.length);
  for (const [name, values] of [
    ['x', x],
    ['y', y],
  ] as const) {
    if (values.every((value) => value === values[0])) {
      const detail = `needs values of ${name} that differ, got ${values.length} times ${values[0]}; take pairs over a wider range`;
      throw new StatisticsError(where, 'no-variation', detail);
    }
  }
}

/** Refuses a list that has not one entry for each pair. */
export function sameLength(where: string, name: string, list: readonly unknown[], n: number): void {
  checkList(where, name, list);
  if (list.length !== n)
    throw new StatisticsError(where, 'lengths-differ', `needs ${n} values in ${name}, got ${list.length}`);
}
