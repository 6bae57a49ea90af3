import { comparisonSides, type Side } from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { type CensoredMeans, censoredMeans, type LeftCensored, mean } from '../../statistics/index.js';
import { isInWindow, type Trial } from '../../trial/index.js';
import { computed } from './computed.js';
import type { BelowDetection, Computed } from './instrument-facts.js';

/**
 * How the difference of changes moves with the way in which readings below the detection limit are counted; nothing where there
 * are none in the windows. The readings of a side and a window are pooled, as if they were of one wall: this shows a movement
 * and is no analysis of its own.
 */
export function belowDetectionOf(
  trial: Trial,
  readings: readonly MoistureReading[],
  instrument: string,
): Computed<BelowDetection> | undefined {
  const cells = pooled(trial, readings, instrument);
  const all = [...cells.values()].flat();
  const below = all.filter(({ kind }) => kind === 'below').length;
  if (below === 0) return undefined;
  return computed(() => {
    const means = (side: Side, window: 'before' | 'after') => meansOf(cells.get(`${side} ${window}`) ?? []);
    const cell = {
      treatedAfter: means('treated', 'after'),
      treatedBefore: means('treated', 'before'),
      untreatedAfter: means('untreated', 'after'),
      untreatedBefore: means('untreated', 'before'),
    };
    const difference = (of: (each: CellMeans) => number, against = of) =>
      of(cell.treatedAfter) - against(cell.treatedBefore) - (against(cell.untreatedAfter) - of(cell.untreatedBefore));
    return {
      below,
      readings: all.length,
      leftOut: difference((each) => each.leftOut),
      likelihood: difference((each) => each.likelihood),
      productLimit: difference((each) => each.productLimit),
      bounds: {
        lower: difference(
          (each) => each.lower,
          (each) => each.upper,
        ),
        upper: difference(
          (each) => each.upper,
          (each) => each.lower,
        ),
      },
    };
  });
}

interface CellMeans {
  readonly leftOut: number;
  readonly likelihood: number;
  readonly productLimit: number;
  readonly lower: number;
  readonly upper: number;
}

function meansOf(values: readonly LeftCensored[]): CellMeans {
  const measured = values.flatMap((one) => (one.kind === 'measured' ? [one.value] : []));
  const leftOut = mean(measured);
  if (measured.length === values.length)
    return { leftOut, likelihood: leftOut, productLimit: leftOut, lower: leftOut, upper: leftOut };
  const means: CensoredMeans = censoredMeans(values);
  return {
    leftOut,
    likelihood: means.normal.estimate,
    productLimit: means.productLimit.estimate,
    ...means.bounds,
  };
}

function pooled(
  trial: Trial,
  readings: readonly MoistureReading[],
  instrument: string,
): ReadonlyMap<string, readonly LeftCensored[]> {
  const { windows } = trial.protocol;
  const sides = comparisonSides(trial.protocol);
  const sideOfWall = new Map(trial.walls.map(({ wall, arm }) => [wall, sides.get(arm)]));
  const cells = new Map<string, LeftCensored[]>();
  for (const { wall, day, instrument: own, value } of readings) {
    const side = sideOfWall.get(wall);
    if (own !== instrument || side === undefined || windows === undefined || value.kind === 'missing') continue;
    const window = isInWindow(day, windows.before) ? 'before' : isInWindow(day, windows.after) ? 'after' : undefined;
    if (window === undefined) continue;
    const key = `${side} ${window}`;
    const entry: LeftCensored = value.kind === 'measured' ? value : { kind: 'below', limit: value.limit };
    cells.set(key, cells.get(key) ?? []);
    cells.get(key)?.push(entry);
  }
  return cells;
}
