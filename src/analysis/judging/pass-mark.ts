import { paired, ratioOfMeans } from '../../statistics/index.js';
import { isAmount, type Outcome, type TargetMark, type Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import type { ComparisonDesign } from '../comparison-design.js';
import { estimatedUnlessRefused, refused } from '../not-estimated.js';
import type { Side, WallChange } from '../wall-change.js';
import { wallCount } from '../wall-groups.js';

export interface PassMarkFound {
  /** In the unit of the mark: percent below the untreated walls, or the treated walls' after mean. */
  readonly answer: Answer;
  /** Of a target, how many walls of each side stand at it or beyond. */
  readonly reached?: Readonly<Record<Side, { readonly walls: number; readonly of: number }>>;
}

/**
 * How the walls stand against the pass mark as it is published, beside the verdict. Absent without a pass mark.
 *
 * A mark can be passed by walls that were drier from the start, and a target by walls that nobody treated, while the verdict
 * adjusts for what walls were before and for what untreated walls did.
 *
 * @example
 * const passMark = { kind: 'reduction', reduction_pct: 50, source: 'an agreement', asMargin: false };
 * againstPassMark({ ...trial, protocol: { ...trial.protocol, passMark } }, design).answer.estimate.estimate // 50.6
 */
export function againstPassMark(trial: Trial, design: ComparisonDesign): PassMarkFound | undefined {
  const { passMark, outcome } = trial.protocol;
  if (passMark === undefined) return undefined;
  if (passMark.kind === 'reduction') return { answer: reductionAgainstUntreated(trial, design) };
  const reachedOn = (side: Side) => {
    const after = afterOn(design, side);
    return { walls: after.filter((value) => isReached(value, passMark, outcome)).length, of: after.length };
  };
  return {
    answer: treatedAfter(trial, design),
    reached: { treated: reachedOn('treated'), untreated: reachedOn('untreated') },
  };
}

function isReached(value: number, { target }: TargetMark, { better }: Outcome): boolean {
  return better === 'lower' ? value <= target : value >= target;
}

function afterOn({ walls }: ComparisonDesign, side: Side): readonly number[] {
  return walls.filter((wall: WallChange) => wall.side === side).map(({ after }) => after);
}

/** Percent by which the treated walls stand below the untreated in the after window, with Fieller's limits; blocks are not used. */
function reductionAgainstUntreated({ protocol }: Trial, design: ComparisonDesign): Answer {
  const id = 'pass-mark';
  if (!isAmount(protocol)) return refused({ id }, { code: 'not-an-amount' });
  return estimatedUnlessRefused(
    { id },
    () => {
      const [treated, untreated] = [afterOn(design, 'treated'), afterOn(design, 'untreated')];
      const { estimate, interval } = ratioOfMeans(treated, untreated, { level: protocol.confidence });
      const percent = (ratio: number) => 100 * (1 - ratio);
      return {
        kind: 'estimated',
        estimate: {
          ...{ id, unit: '%', estimate: percent(estimate) },
          ...(interval && {
            interval: { level: interval.level, lower: percent(interval.upper), upper: percent(interval.lower) },
          }),
          method: { kind: 'fieller' },
          walls: wallCount(design.walls),
        },
      };
    },
    { 'out-of-range': { code: 'untreated-mean-near-zero' } },
  );
}

function treatedAfter({ protocol }: Trial, design: ComparisonDesign): Answer {
  const id = 'pass-mark-target';
  return estimatedUnlessRefused(
    { id },
    () => {
      const { estimate, interval } = paired(afterOn(design, 'treated'), { level: protocol.confidence });
      return {
        kind: 'estimated',
        estimate: {
          ...{ id, unit: protocol.outcome.unit, estimate, interval },
          method: { kind: 'mean-after', quantity: protocol.outcome.quantity },
          walls: wallCount(design.walls),
        },
      };
    },
    { 'no-variation': { code: 'treated-alike' } },
  );
}
