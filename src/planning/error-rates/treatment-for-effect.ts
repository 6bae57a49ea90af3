import { followTrial } from '../simulated-wall/followed-trial.js';
import type { SimulatedDesign, SimulatedTreatment } from '../simulated-wall/simulated-design.js';
import { truthOfTrial } from '../simulated-wall/truth-of-trial.js';

/** A treatment with what it does on average to walls of a kind. */
export interface SizedTreatment {
  readonly treatment: SimulatedTreatment;
  /** Mean fall that it causes, % by mass, with its Monte Carlo standard error. */
  readonly effect: number;
  readonly standardError: number;
}

/** How many trials the search and the last count are made of. */
export interface Sizing {
  readonly searchTrials: number;
  readonly countTrials: number;
  readonly seed: number;
}

/**
 * The barrier against rising water that makes treated walls lose about so much more, and exactly how much more that is. Found by
 * halving: the more supply is left, the smaller is the effect.
 *
 * @param wanted the mean fall, % by mass, above 0
 */
export function treatmentForEffect(design: SimulatedDesign, wanted: number, sizing: Sizing): SizedTreatment {
  const at = (factor: number): SimulatedDesign => ({ ...wallsOf(design), treatment: { kind: 'supply', factor } });
  let [low, high] = [0, 1];
  for (let halving = 0; halving < 12; halving++) {
    const middle = (low + high) / 2;
    if (effectOf(at(middle), sizing.searchTrials, sizing.seed).mean > wanted) low = middle;
    else high = middle;
  }
  const factor = Math.round(1e4 * ((low + high) / 2)) / 1e4;
  const { mean, standardError } = effectOf(at(factor), sizing.countTrials, sizing.seed + 1e6);
  return { treatment: { kind: 'supply', factor }, effect: mean, standardError };
}

/**
 * Many walls by themselves: what a treatment does on average depends neither on how walls were allocated nor on who reads them.
 */
function wallsOf(design: SimulatedDesign): SimulatedDesign {
  return { ...design, layout: 'complete', treated: 24, untreated: 1, dropOut: 0, readersKnow: 'nothing', shaved_pp: 0 };
}

function effectOf(design: SimulatedDesign, trials: number, seed: number) {
  const falls = Array.from(
    { length: trials },
    (_, trial) => -truthOfTrial(followTrial(design, seed + trial, { withTruth: true })).effect,
  );
  const mean = falls.reduce((sum, fall) => sum + fall, 0) / trials;
  const variance = falls.reduce((sum, fall) => sum + (fall - mean) ** 2, 0) / (trials - 1);
  return { mean, standardError: Math.sqrt(variance / trials) };
}
