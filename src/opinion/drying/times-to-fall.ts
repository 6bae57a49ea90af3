import { type Answer, compareWalls } from '../../analysis/index.js';
import { daysUntilDry, followedUntilDry, timeToDry } from '../../drying/index.js';
import { type ClusteredTime, isStatisticsError, type LogRank, logRank, productLimit } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import type { TimesToFall, WallCurve } from './drying-part.js';

/** When each wall had fallen by the margin; nothing where the plan states no margin. */
export function timesToFall({ protocol }: Trial, curves: readonly WallCurve[]): { readonly times?: TimesToFall } {
  const fall = protocol.margin;
  if (fall === undefined) return {};
  const times = curves.map((curve) => {
    const limit = (curve.moisture[0] as number) - fall;
    const group = curve.side === 'treated' ? ('x' as const) : ('y' as const);
    return { ...followedUntilDry(timeToDry(curve, limit)), arm: curve.arm, group, cluster: curve.wall };
  });
  const sorted = curves.toSorted((one, other) => Number(other.side === 'treated') - Number(one.side === 'treated'));
  const arms = [...new Set(sorted.map(({ arm }) => arm))].map((arm) => {
    const own = times.filter((one) => one.arm === arm);
    const { steps, events } = productLimit(own);
    const half = steps.find(({ surviving }) => surviving <= 0.5);
    return { arm, walls: own.length, fallen: events, ...(half === undefined ? {} : { median_d: half.time }) };
  });
  const test = logRankIfAny(times);
  return { times: { fall, arms, ...(test === undefined ? {} : { logRank: test }) } };
}

/**
 * Days until each wall had fallen by the margin, of the days that all curves cover: nothing is censored in them, so that walls can
 * be compared by their means. Nothing where the plan states no margin.
 */
export function daysToFallAnswer(
  { protocol }: Trial,
  curves: readonly WallCurve[],
  period_d: number,
): readonly Answer[] {
  const { margin: fall, confidence: level } = protocol;
  if (fall === undefined) return [];
  const values = curves.map((curve) => {
    const time = timeToDry(curve, (curve.moisture[0] as number) - fall);
    return { ...curve, value: daysUntilDry(time, period_d) };
  });
  const what = { id: 'days-to-fall', unit: 'days', level, scale: 'difference' } as const;
  const label = `Days until lower by the margin, of the first ${period_d}`;
  const late = 'a wall fell half way between the visits that found it above and below';
  return [compareWalls(values, { ...what, label, quantity: 'days until lower by the margin', assumptions: [late] })];
}

function logRankIfAny(times: readonly ClusteredTime[]): LogRank | undefined {
  try {
    return logRank(times);
  } catch (error) {
    if (isStatisticsError(error)) return undefined;
    throw error;
  }
}
