import type { Side } from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { censoredGroupMeans, type LeftCensored, productLimitMean } from '../../statistics/index.js';
import { computed, notComputed } from './computed.js';
import type { Computed } from './instrument-facts.js';

/** The readings of one wall in one window, whatever their station: what a mean of that wall is made from. */
export interface WallInWindow {
  readonly wall: string;
  readonly side: Side;
  readonly window: 'before' | 'after';
  readonly measured: number[];
  readonly below: { readonly reading: MoistureReading; readonly limit: number }[];
}

/** What each reading below its limit counts as. */
export type CountedBelow = ReadonlyMap<MoistureReading, number>;

/**
 * By maximum likelihood with a normal shape: each wall and window with a mean of its own, all with one spread, for a wall's few
 * readings do not know one of their own.
 */
export function byLikelihood(cells: readonly WallInWindow[]): Computed<CountedBelow> {
  const few = tooFew(cells, 1);
  if (few !== undefined) return few;
  return computed(() => {
    const { groups } = censoredGroupMeans(cells.map(asCensored));
    return countedAs(cells, (_, index) => groups[index]?.expectedBelow ?? []);
  });
}

/** By the estimate of Kaplan and Meier of each wall and window by itself. */
export function byProductLimit(cells: readonly WallInWindow[]): Computed<CountedBelow> {
  const few = tooFew(cells, 2);
  if (few !== undefined) return few;
  return computed(() => countedAs(cells, (cell) => productLimitMean(asCensored(cell)).expectedBelow));
}

/** At 0 or at their limits, whichever pulls the difference of changes furthest. */
export function atExtremes(cells: readonly WallInWindow[], towards: 'lower' | 'upper'): CountedBelow {
  return countedAs(cells, ({ side, window, below }) => {
    const raises = (side === 'treated') === (window === 'after');
    const least = raises === (towards === 'lower');
    return below.map(({ limit }) => (least ? Math.min(0, limit) : limit));
  });
}

/** `needed` different readings of each wall in each window. */
function tooFew(cells: readonly WallInWindow[], needed: 1 | 2): Computed<never> | undefined {
  const short = cells.filter(({ measured }) => new Set(measured).size < needed).map(({ wall }) => wall);
  if (short.length === 0) return undefined;
  return notComputed({ code: 'too-few-measured', needed, walls: [...new Set(short)] });
}

function asCensored({ measured, below }: WallInWindow): readonly LeftCensored[] {
  return [
    ...measured.map((value): LeftCensored => ({ kind: 'measured', value })),
    ...below.map(({ limit }): LeftCensored => ({ kind: 'below', limit })),
  ];
}

function countedAs(
  cells: readonly WallInWindow[],
  values: (cell: WallInWindow, index: number) => readonly number[],
): CountedBelow {
  return new Map(
    cells.flatMap((cell, index) => {
      const own = values(cell, index);
      return cell.below.map(({ reading }, at): [MoistureReading, number] => [reading, own[at] as number]);
    }),
  );
}
