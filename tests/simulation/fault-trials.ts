import type { Trial } from '../../src/trial/index.js';
import type { Base } from './fault-trials/base.js';
import type { Fault, FaultBase } from './fault-trials/fault.js';
import { faultsOfAllocation } from './fault-trials/faults-of-allocation.js';
import { faultsOfMeasurement } from './fault-trials/faults-of-measurement.js';
import { faultsOfMissingData } from './fault-trials/faults-of-missing-data.js';
import { faultsOfResult } from './fault-trials/faults-of-result.js';
import { faultsOfTiming } from './fault-trials/faults-of-timing.js';
import { drawsFrom } from './fault-trials/own-random.js';
import { soundTrial } from './fault-trials/sound-trial.js';
import { soundSeries } from './fault-trials/two-walls.js';

export { MARGIN } from './fault-trials/base.js';
export { coreStatements, dropStatement } from './fault-trials/drop-statement.js';
export type { Base, Fault, FaultBase };
export { soundSeries, soundTrial };

/** Every fault that can be planted, domain by domain. */
export const faults: readonly Fault[] = [
  ...faultsOfAllocation,
  ...faultsOfTiming,
  ...faultsOfMissingData,
  ...faultsOfMeasurement,
  ...faultsOfResult,
];

/** The sound trial of a seed in which a fault is to be planted. */
export function soundTrialFor({ in: from }: Pick<Fault, 'in'>, seed: number): Trial {
  return from.kind === 'two-walls' ? soundSeries(seed, from.base) : soundTrial(seed, from.base);
}

/**
 * A trial with a fault, as it would be in life. The same seed gives the same fault.
 *
 * @example plant(fault, soundTrialFor(fault, 7), 7)
 */
export function plant(fault: Fault, trial: Trial, seed: number): Trial {
  return fault.plant(trial, drawsFrom(seed ^ 0x5f356495));
}
