import { type MoistureReading, weighingUncertainty } from '../moisture/index.js';
import { median } from '../statistics/index.js';
import type { Trial } from '../trial/index.js';

export interface Measurement {
  /** Readings of the outcome's instrument that the primary analysis used. */
  readonly used: number;
  /** Median standard uncertainty of one outcome reading, in the outcome's unit; absent where nothing is known of it. */
  readonly typicalUncertainty?: number;
  /** How that uncertainty was found, in one sentence. */
  readonly uncertaintyNote: string;
}

/**
 * How well one outcome reading is known, as far as the trial says.
 *
 * @example measurementOf(trial, used).typicalUncertainty // 0.012
 */
export function measurementOf(trial: Trial, used: readonly MoistureReading[]): Measurement {
  const known = used.flatMap(({ standardUncertainty }) => standardUncertainty ?? []);
  const instrument = trial.protocol.instruments.find((one) => one.instrument === trial.protocol.outcome.instrument);
  if (known.length === 0 || instrument === undefined)
    return {
      used: used.length,
      uncertaintyNote: 'the trial states no uncertainty of a single reading of the outcome’s instrument',
    };
  const { note } = weighingUncertainty(instrument, trial.source.massStep_g ?? 0);
  return {
    used: used.length,
    typicalUncertainty: median(known),
    uncertaintyNote: `median standard uncertainty of one core from the balance alone: ${note}; drying, transport and the place of drilling are not in it`,
  };
}
