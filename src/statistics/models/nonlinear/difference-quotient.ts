/** A parameter's room to move, and the largest steps to try. */
export interface Reach {
  readonly step: number;
  /** To be taken instead, or something between, where the step does not show in the values. */
  readonly widest: number;
  readonly down: number;
  readonly up: number;
}

/** Steps fall from the first to a sixty-fourth of it. */
const LEVELS = 7;
const SHOWS = 1e-6;
const MOST_REDUCTIONS = 40;

/**
 * Derivatives of several values by one parameter: central differences over halved steps, extrapolated to step zero.
 *
 * Each value takes, from the triangle of extrapolations, the entry with the least estimated error: disagreement with the
 * entries it was made from, plus what rounding of the values does at that step. Beside a bound the differences are one-sided.
 * Ridders, Advances in Engineering Software 4 (1982) 75–76.
 *
 * @param valuesAt values after the parameter is moved by so much
 * @returns not finite where no step gave finite values
 */
export function differenceQuotients(valuesAt: (move: number) => Float64Array, reach: Reach): Float64Array {
  const sides = sidesOf({ ...reach, step: showingStep(valuesAt, reach) });
  let step = sides.step;
  let quotients = quotientsAt(valuesAt, sides, step);
  for (let count = 0; count < MOST_REDUCTIONS && !quotients.slopes.every(Number.isFinite); count++) {
    step /= 4;
    quotients = quotientsAt(valuesAt, sides, step);
  }
  return extrapolated(valuesAt, sides, step, quotients);
}

/** A parameter that happens to be next to zero is moved further than by a part of itself. */
function showingStep(valuesAt: (move: number) => Float64Array, { step, widest, down, up }: Reach): number {
  const still = valuesAt(0);
  const size = largest(still);
  let wider = step;
  while (wider < widest) {
    const side = up >= down ? Math.min(wider, up) : -Math.min(wider, down);
    const moved = valuesAt(side);
    for (let row = 0; row < moved.length; row++) moved[row]! -= still[row]!;
    if (!(largest(moved) < SHOWS * size)) return wider;
    wider = Math.min(widest, 16 * wider);
  }
  return wider;
}

function largest(values: Float64Array): number {
  let size = 0;
  for (let row = 0; row < values.length; row++) size = Math.max(size, Math.abs(values[row]!));
  return size;
}

interface Sides {
  /** Multiples of the step at which the values are taken. */
  readonly from: -1 | 0;
  readonly to: 0 | 1;
  readonly step: number;
}

/** Both sides where there is room for a sixteenth of the step on either, else the roomier side alone. */
function sidesOf({ step, down, up }: Reach): Sides {
  const narrow = Math.min(down, up);
  if (narrow >= step / 16) return { from: -1, to: 1, step: powerOfTwoUpTo(Math.min(step, narrow)) };
  const within = powerOfTwoUpTo(Math.min(step, Math.max(down, up)));
  return up >= down ? { from: 0, to: 1, step: within } : { from: -1, to: 0, step: within };
}

/** Adding such a step to a parameter rounds little or nothing. */
function powerOfTwoUpTo(size: number): number {
  return 2 ** Math.floor(Math.log2(size));
}

interface Quotients {
  readonly slopes: Float64Array;
  /** What rounding in the values may have done to each slope. */
  readonly rounding: Float64Array;
}

function quotientsAt(valuesAt: (move: number) => Float64Array, { from, to }: Sides, step: number): Quotients {
  const before = valuesAt(from * step);
  const after = valuesAt(to * step);
  const width = (to - from) * step;
  const slopes = new Float64Array(after.length);
  const rounding = new Float64Array(after.length);
  for (let row = 0; row < after.length; row++) {
    slopes[row] = (after[row]! - before[row]!) / width;
    rounding[row] = (Number.EPSILON * Math.max(Math.abs(after[row]!), Math.abs(before[row]!))) / width;
  }
  return { slopes, rounding };
}

function extrapolated(
  valuesAt: (move: number) => Float64Array,
  sides: Sides,
  step: number,
  first: Quotients,
): Float64Array {
  const ratio = sides.to - sides.from === 2 ? 4 : 2;
  const best = Float64Array.from(first.slopes);
  const error = new Float64Array(best.length).fill(Number.POSITIVE_INFINITY);
  let previous = [first.slopes];
  for (let level = 1; level < LEVELS; level++) {
    const { slopes, rounding } = quotientsAt(valuesAt, sides, step / 2 ** level);
    const current = [slopes];
    for (let order = 1; order <= level; order++) {
      const [coarse, fine] = [previous[order - 1]!, current[order - 1]!];
      const refined = new Float64Array(fine.length);
      const divisor = ratio ** order - 1;
      for (let row = 0; row < fine.length; row++) {
        const value = fine[row]! + (fine[row]! - coarse[row]!) / divisor;
        const disagreement = Math.max(Math.abs(value - fine[row]!), Math.abs(value - coarse[row]!));
        refined[row] = value;
        if (disagreement + rounding[row]! >= error[row]!) continue;
        error[row] = disagreement + rounding[row]!;
        best[row] = value;
      }
      current.push(refined);
    }
    previous = current;
  }
  return best;
}
