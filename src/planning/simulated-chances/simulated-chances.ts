import { availableParallelism } from 'node:os';
import { type VerdictCode, verdictCode } from '../../analysis/index.js';
import { PlanningError } from '../planning-error.js';
import { differenceErrors } from '../walls-needed/difference-errors.js';
import type { UncertainComparison } from '../walls-needed/planned-chances.js';
import { checkMargin, type VerdictChances } from '../walls-needed/verdict-chances.js';
import { inThreads } from './simulating-threads.js';
import { fillIntervals, limitsOfTrial } from './trial-intervals.js';

export interface SimulationOptions {
  /** The same seed gives the same digits, whatever the number of threads. */
  readonly seed: number;
  /** 1,000 unless told. */
  readonly trials?: number;
  /** Worker threads; 0 simulates in this one. As many as the machine offers unless told. */
  readonly threads?: number;
}

/** How often each verdict came out in simulated trials. */
export interface CountedChances {
  readonly chances: VerdictChances;
  /** Monte Carlo standard errors of the chances: √(p (1 − p) / n), p taken half a trial away from 0 and 1, so that none is 0. */
  readonly errors: VerdictChances;
}

export interface SimulatedChances {
  readonly trials: number;
  readonly seed: number;
  readonly truths: readonly {
    /** The true effect, on the better side. */
    readonly effect: number;
    /** By the primary analysis, whose interval gives the verdict. */
    readonly primary: CountedChances;
    /** By the mixed model that an opinion puts beside it; absent where no trial allowed its fit, as with one station a wall. */
    readonly mixed?: CountedChances;
  }[];
}

/**
 * The chance of every verdict by simulation: trials are drawn from a mixed model (walls, stations inside walls, visits that resemble each
 * other, readings), and each is judged by the primary analysis and by a mixed model fitted by restricted maximum likelihood with Kenward and
 * Roger's degrees of freedom. For designs without a closed form, such as those with missed visits, and to hold the closed forms to.
 *
 * An effect moves an interval and does not change its width, so that the same trials serve all effects.
 *
 * @param effects on the better side
 * @param margin undefined where the plan states none
 * @throws PlanningError, by rejecting: `out-of-range`; `not-possible` for two walls
 * @example (await simulatedChances(inPairs, [0, 4], 2, { seed: 1, trials: 400, threads: 0 })).truths[1].primary.chances.worthwhile // 0.97
 */
export async function simulatedChances(
  planned: UncertainComparison,
  effects: readonly number[],
  margin: number | undefined,
  { seed, trials = 1000, threads = availableParallelism() }: SimulationOptions,
): Promise<SimulatedChances> {
  for (const effect of effects) checkMargin('simulatedChances', effect, margin);
  // The same numbers as the closed forms, and the same refusals.
  differenceErrors(planned);
  if (!Number.isSafeInteger(trials) || trials < 1) refuse(`needs a whole number of trials from 1, got ${trials}`);
  if (!Number.isSafeInteger(threads) || threads < 0) refuse(`needs a whole number of threads from 0, got ${threads}`);
  const limits = new Float64Array(new SharedArrayBuffer(trials * limitsOfTrial * Float64Array.BYTES_PER_ELEMENT));
  const next = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const job = { planned, seed, next, limits };
  if (threads === 0) fillIntervals(job);
  else await inThreads(job, Math.min(threads, trials));
  return {
    trials,
    seed,
    truths: effects.map((effect) => {
      const mixed = counted(limits, 2, effect, margin);
      return {
        effect,
        primary: counted(limits, 0, effect, margin),
        ...(mixed.chances['not-answerable'] === 1 ? {} : { mixed }),
      };
    }),
  };
}

function counted(limits: Float64Array, at: number, effect: number, margin: number | undefined): CountedChances {
  const counts = new Map<VerdictCode, number>();
  const trials = limits.length / limitsOfTrial;
  for (let trial = 0; trial < trials; trial++) {
    const [lower = Number.NaN, upper = Number.NaN] = limits.subarray(trial * limitsOfTrial + at);
    const code = Number.isNaN(lower)
      ? 'not-answerable'
      : verdictCode({ level: 0.95, lower: lower + effect, upper: upper + effect }, margin, 'higher');
    counts.set(code, (counts.get(code) ?? 0) + 1);
  }
  const of = (number: (count: number) => number): VerdictChances => ({
    worthwhile: number(counts.get('worthwhile') ?? 0),
    'some-effect': number(counts.get('some-effect') ?? 0),
    'smaller-than-worthwhile': number(counts.get('smaller-than-worthwhile') ?? 0),
    'no-worthwhile-effect': number(counts.get('no-worthwhile-effect') ?? 0),
    harmful: number(counts.get('harmful') ?? 0),
    undecided: number(counts.get('undecided') ?? 0),
    'not-answerable': number(counts.get('not-answerable') ?? 0),
  });
  return {
    chances: of((count) => count / trials),
    errors: of((count) => {
      const share = Math.min(Math.max(count, 0.5), trials - 0.5) / trials;
      return Math.sqrt((share * (1 - share)) / trials);
    }),
  };
}

function refuse(detail: string): never {
  throw new PlanningError('simulatedChances', 'out-of-range', detail);
}
