import { type MoistureReading, type WeighingSource, weighingUncertainty } from '../moisture/index.js';
import { median } from '../statistics/index.js';
import type { Trial } from '../trial/index.js';

export interface Measurement {
  /** Readings of the outcome's instrument that the primary analysis used. */
  readonly used: number;
  /** How well one outcome reading is known; absent where the trial says nothing of it. */
  readonly typical?: {
    /** Median standard uncertainty, in the outcome's unit: of one core from the balance alone. */
    readonly uncertainty: number;
    readonly source: WeighingSource;
  };
}

/**
 * How well one outcome reading is known, as far as the trial says.
 *
 * @example measurementOf(trial, used).typical.uncertainty // 0.012
 */
export function measurementOf(trial: Trial, used: readonly MoistureReading[]): Measurement {
  const known = used.flatMap(({ standardUncertainty }) => standardUncertainty ?? []);
  const instrument = trial.protocol.instruments.find((one) => one.instrument === trial.protocol.outcome.instrument);
  if (known.length === 0 || instrument === undefined) return { used: used.length };
  const { source } = weighingUncertainty(instrument, trial.source.massStep_g ?? 0);
  return { used: used.length, typical: { uncertainty: median(known), source } };
}
