import {
  glassDelta,
  hedgesG,
  isStatisticsError,
  logResponseRatio,
  pooledSpread,
  probabilityOfSuperiority,
  type StatisticsError,
  standardDeviation,
} from '../statistics/index.js';
import type { Answer } from './answer.js';
import { comparedIn } from './compared.js';
import type { ComparisonDesign } from './comparison-design.js';
import type { Estimate } from './estimate.js';
import type { EffectSizeKind } from './method.js';
import { refused } from './not-estimated.js';
import type { Primary } from './primary-difference.js';
import type { Reason } from './reason.js';
import type { Side } from './wall-change.js';
import { changesOn, wallCount } from './wall-groups.js';

export interface EffectSizeOptions {
  readonly level: number;
  readonly better: 'lower' | 'higher';
}

type Size = Pick<Estimate, 'estimate'> & Required<Pick<Estimate, 'interval'>> & Pick<Estimate, 'standardError'>;

/**
 * The effect in sizes that can be set beside those of other trials. A negative g, delta or log ratio means that the
 * treated walls came out lower.
 *
 * @example effectSizes(design, primary, { level: 0.95, better: 'lower' })[0].estimate.estimate // -4.445
 */
export function effectSizes(design: ComparisonDesign, primary: Primary, options: EffectSizeOptions): readonly Answer[] {
  const { level, better } = options;
  const [treated, untreated] = [changesOn(design.walls, 'treated'), changesOn(design.walls, 'untreated')];
  const afterOn = (side: Side) => design.walls.filter((wall) => wall.side === side).map(({ after }) => after);
  const difference = (): number => {
    if (primary.kind === 'estimated') return primary.estimate.estimate;
    throw new NoAnswer(primary.reason);
  };
  const answer = (id: EffectSizeKind, compute: () => Size) => answered(id, compute, design);
  return [
    answer('hedges-g', () => {
      const pooledSd = pooledSpread(treated, untreated).standardDeviation;
      return hedgesG({ difference: difference(), pooledSd, n1: treated.length, n2: untreated.length, level });
    }),
    answer('glass-delta', () => {
      // Before the difference, so that walls that are too few are the reason rather than what the difference lacks.
      const untreatedSd = standardDeviation(untreated);
      const counts = { treated: treated.length, untreated: untreated.length };
      return glassDelta({ difference: difference(), untreatedSd, ...counts, level });
    }),
    answer('log-response-ratio', () => logResponseRatio(afterOn('treated'), afterOn('untreated'), { level })),
    answer('probability-of-superiority', () => {
      const [ahead, behind] = better === 'lower' ? [treated, untreated] : [untreated, treated];
      requireTwoEach(treated, untreated);
      return probabilityOfSuperiority(ahead, behind, { level });
    }),
  ];
}

const unitOf: Readonly<Record<EffectSizeKind, string>> = {
  'hedges-g': 'standard deviations',
  'glass-delta': 'standard deviations',
  'log-response-ratio': 'log units',
  'probability-of-superiority': 'probability',
};

const tooFew: Reason = { code: 'too-few-in-arm' };

/** Carries the reason to where the answer is put together. */
class NoAnswer extends Error {
  override readonly name = 'NoAnswer' as const;

  constructor(readonly reason: Reason) {
    super(reason.code);
  }
}

/** A share of a single pair of walls is no probability, though its interval could be computed. */
function requireTwoEach(...sides: readonly (readonly number[])[]): void {
  if (sides.some(({ length }) => length < 2)) throw new NoAnswer(tooFew);
}

function answered(id: EffectSizeKind, compute: () => Size, { walls }: ComparisonDesign): Answer {
  try {
    const { estimate, interval, standardError } = compute();
    const error = standardError === undefined ? {} : { standardError };
    const method = { kind: id, compared: comparedIn(walls) };
    return {
      kind: 'estimated',
      estimate: { id, unit: unitOf[id], estimate, interval, ...error, method, walls: wallCount(walls) },
    };
  } catch (error) {
    if (error instanceof NoAnswer) return refused({ id }, error.reason);
    if (!isStatisticsError(error)) throw error;
    return refused({ id }, reasonFor(error));
  }
}

function reasonFor({ fault }: StatisticsError): Reason {
  switch (fault) {
    case 'out-of-range':
      return { code: 'ratio-needs-positive-means' };
    case 'no-variation':
      return { code: 'no-scale-of-spread' };
    default:
      return tooFew;
  }
}
