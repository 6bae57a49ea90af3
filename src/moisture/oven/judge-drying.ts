import { extremes } from '../../statistics/index.js';
import { MoistureError } from '../moisture-error.js';
import { type ConstantMass, constantMass, type DriedSample } from './constant-mass.js';
import type { DryingRule } from './drying-rules.js';
import { type OvenBatch, type OvenFinding, ovenFindings } from './oven-temperature.js';

/** Samples that were dried together. Temperature and stop rule are part of the record: without them a dry mass is a guess. */
export interface DryingBatch extends OvenBatch {
  readonly batch: string;
  readonly rule: DryingRule;
  readonly samples: readonly (DriedSample & { readonly sample: string })[];
}

export interface JudgedSample {
  readonly sample: string;
  readonly constantMass: ConstantMass;
}

/** Whether a batch was dried as its rule has it, and what the oven's temperature did to it. */
export interface JudgedBatch {
  readonly batch: string;
  readonly temperature_c: number;
  readonly rule: DryingRule;
  readonly samples: readonly JudgedSample[];
  /** How many samples reached constant mass. */
  readonly reached: number;
  /** The most that was still in a sample that reached it, percentage points. Absent where that is known of none. */
  readonly stillInIt_pp?: number;
  /** How many reached constant mass without enough weighings to say what was still in them. */
  readonly notKnown: number;
  readonly findings: readonly OvenFinding[];
}

/**
 * Holds every sample of a batch against the batch's stop rule, and the oven's temperature against its salts.
 *
 * @throws MoistureError `too-few` for a batch without samples, and as `constantMass` and `ovenFindings`
 * @example
 * const weighings = [{ time_h: 0, mass_g: 48.2 }, { time_h: 24, mass_g: 47.86 }, { time_h: 48, mass_g: 47.84 }, { time_h: 72, mass_g: 47.83 }];
 * const samples = [{ sample: 'W01-low', weighings }];
 * judgeDrying({ batch: 'B1', temperature_c: 105, salts: [], rule: dryingRules['iso-12570'], samples }).reached // 1
 */
export function judgeDrying(batch: DryingBatch): JudgedBatch {
  if (batch.samples.length === 0)
    throw new MoistureError('judgeDrying', 'too-few', `needs samples in batch ${batch.batch}, got none`);
  const samples = batch.samples.map((sample) => ({
    sample: sample.sample,
    constantMass: constantMass(sample, batch.rule),
  }));
  const reached = samples.flatMap(({ constantMass: judged }) => (judged.kind === 'reached' ? [judged.stillInIt] : []));
  const known = reached.flatMap((each) => (each.kind === 'extrapolated' ? [each.moisture_pp] : []));
  return {
    batch: batch.batch,
    temperature_c: batch.temperature_c,
    rule: batch.rule,
    samples,
    reached: reached.length,
    ...(known.length === 0 ? {} : { stillInIt_pp: extremes(known).greatest }),
    notKnown: reached.length - known.length,
    findings: ovenFindings(batch),
  };
}
