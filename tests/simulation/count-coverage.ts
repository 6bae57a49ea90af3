import { type Interval, isStatisticsError, randomStream } from '../../src/statistics/index.js';
import { type Method, methods } from './methods.js';
import { type Allocation, type SimulatedTrial, simulatedTrial, TRUE_EFFECT } from './simulated-trial.js';

/** How a method's 95 % interval did over simulated trials. */
export interface MethodCoverage {
  readonly id: string;
  readonly label: string;
  readonly naive: boolean;
  readonly remark?: string;
  readonly trials: number;
  /** Trials that gave an interval: a design may allow none, and a method may refuse data. */
  readonly intervals: number;
  /** Trials that the method refused; absent where there were none. */
  readonly refused?: number;
  /** Intervals that held the true effect. */
  readonly held: number;
  /** Of the first `FIRST_TRIALS` trials, so that a short run can be compared with a long one. */
  readonly heldAtFirst: number;
  readonly meanHalfWidth: number;
}

export const FIRST_TRIALS = 10;

/**
 * Simulates trials one after the other and lets every method of the allocation judge each, or those with an id in `only`:
 * the trials are the same, whoever judges them.
 */
export function countCoverage(
  allocation: Allocation,
  walls: number,
  trials: number,
  seed: number,
  only?: readonly string[],
): MethodCoverage[] {
  const judges = methods[allocation].filter(({ id }) => only?.includes(id) ?? true);
  const stream = randomStream(seed);
  const counts = judges.map(() => ({ intervals: 0, refused: 0, held: 0, heldAtFirst: 0, halfWidths: 0 }));
  for (let number = 0; number < trials; number++) {
    const trial = simulatedTrial(stream, walls, allocation);
    judges.forEach((method, index) => {
      const count = counts[index]!;
      const interval = intervalUnlessRefused(method, trial, seed + number);
      if (interval === 'refused') count.refused++;
      if (interval === undefined || interval === 'refused') return;
      const held = interval.lower <= TRUE_EFFECT && TRUE_EFFECT <= interval.upper;
      count.intervals++;
      count.held += Number(held);
      if (number < FIRST_TRIALS) count.heldAtFirst += Number(held);
      count.halfWidths += (interval.upper - interval.lower) / 2;
    });
  }
  return judges.map(({ id, label, naive = false, remark }, index) => {
    const { intervals, refused, held, heldAtFirst, halfWidths } = counts[index]!;
    const meanHalfWidth = intervals === 0 ? 0 : halfWidths / intervals;
    return {
      id,
      label,
      naive,
      ...(remark !== undefined && { remark }),
      trials,
      intervals,
      ...(refused > 0 && { refused }),
      held,
      heldAtFirst,
      meanHalfWidth,
    };
  });
}

function intervalUnlessRefused(method: Method, trial: SimulatedTrial, seed: number): Interval | 'refused' | undefined {
  try {
    return method.interval(trial, seed);
  } catch (error) {
    if (isStatisticsError(error)) return 'refused';
    throw error;
  }
}
