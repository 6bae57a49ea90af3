import type { StationChange } from '../../analysis/index.js';
import type { Protocol, Wall } from '../../trial/index.js';
import { followTrial, type Seen } from './followed-trial.js';
import { stationName, wallRecord } from './simulate-trial.js';
import type { SimulatedDesign } from './simulated-design.js';
import { protocolOf } from './simulated-protocol.js';

/** A simulated trial as far as its primary analysis needs it. */
export interface SimulatedChanges {
  readonly protocol: Protocol;
  readonly walls: readonly Wall[];
  readonly stations: readonly StationChange[];
}

/**
 * The same walls and looks at them as `simulateTrial` makes of the design and seed, with the means of each station at once: no cores are
 * weighed, and nothing is followed that was not done. For many thousand trials; the balance, which adds some hundredths of a percent, is
 * left out.
 *
 * @example simulateChanges(plainDesign, 1).stations.length // 72
 */
export function simulateChanges(design: SimulatedDesign, seed: number): SimulatedChanges {
  const { walls, seen } = followTrial(design, seed, { withTruth: false });
  const sums = new Map<string, { readonly before: Mean; readonly after: Mean; readonly one: Seen }>();
  for (const one of seen) {
    const name = stationName(one.wall, design.heights_mm[one.station] ?? 0);
    const sum = sums.get(name) ?? { before: { sum: 0, count: 0 }, after: { sum: 0, count: 0 }, one };
    sums.set(name, sum);
    const mean = one.isAfter ? sum.after : sum.before;
    mean.sum += one.moisture;
    mean.count++;
  }
  const scale = design.instrument === 'meter' ? 5 : 1;
  return {
    protocol: protocolOf(design, seed),
    walls: walls.map(({ wall }, at) => wallRecord(wall, at)),
    stations: [...sums].map(([station, { before, after, one }]) => ({
      ...{ wall: one.wall.wall, station },
      ...(before.count === 0 ? {} : { before: (scale * before.sum) / before.count }),
      ...(after.count === 0 ? {} : { after: (scale * after.sum) / after.count }),
    })),
  };
}

interface Mean {
  sum: number;
  count: number;
}
