import { followedUntilDry, timeToDry } from '../../drying/index.js';
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

function logRankIfAny(times: readonly ClusteredTime[]): LogRank | undefined {
  try {
    return logRank(times);
  } catch (error) {
    if (isStatisticsError(error)) return undefined;
    throw error;
  }
}
