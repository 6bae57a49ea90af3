import { type Eigen, symmetricEigen } from '../../numerics/matrix/symmetric-eigen.js';

/** The value of a smooth function and its gradient. */
interface Evaluation {
  readonly value: number;
  readonly gradient: Float64Array;
  /** What rounding may have made of the value, where that is more than doubles do anyhow. */
  readonly rounding?: number;
}

/** A smooth function; undefined where it cannot be evaluated. */
export type SmoothFunction = (point: Float64Array) => Evaluation | undefined;

export interface Minimum {
  readonly point: Float64Array;
  readonly value: number;
  /** What rounding may have made of the value, as far as the function says so. */
  readonly rounding: number;
  readonly evaluations: number;
  readonly converged: boolean;
}

const mostSteps = 400;
/** Once a step promises less than this share of the value, the second derivatives are measured and count as measured from then on. */
const near = 1e-6;
/** Rounding is too much of the change of the gradient along a step that promises less than this share to better them by it. */
const leastChange = 1e-14;
/** A step that promises less than this share of the value moves the point by less than some 1e-10 of its scale. */
const negligible = 1e-22;
/** Below this share, a promise that no longer shrinks is made of rounding errors. */
const leastRounding = 1e-14;

/** Rounding of the value is in the gradient too, whose square a promise is made of; a hundredth of it, as found by trying. */
function roundingOf({ rounding = 0 }: Evaluation): number {
  return Math.max(leastRounding, (rounding / 100) ** 2);
}

/** Where the search stands: second derivatives are measured by differences, or carried along by updates. */
interface State {
  readonly point: Float64Array;
  readonly here: Evaluation;
  readonly hessian: Float64Array;
  readonly measured: boolean;
  readonly radius: number;
  readonly promised: number;
}

/**
 * Newton's method inside a trust region. Second derivatives are measured by differences of the gradient at the start,
 * carried along by the update of Broyden, Fletcher, Goldfarb and Shanno, and measured again near the minimum, where the update betters them.
 * Directions in which the function curves downward are walked with the size of their curvature, so that saddle points
 * repel (Nocedal and Wright, Numerical Optimization, 2nd ed. 2006, sections 3.4 and 6.1). A start at which the function cannot be
 * evaluated is an end without convergence.
 */
export function minimise(evaluate: SmoothFunction, start: Float64Array): Minimum {
  let evaluations = 0;
  const counted: SmoothFunction = (point) => {
    evaluations += 1;
    return evaluate(point);
  };
  const first = counted(start);
  if (first === undefined)
    return { point: start, value: Number.POSITIVE_INFINITY, rounding: 0, evaluations, converged: false };
  const ending = ({ point, here: { value, rounding = 0 } }: State, converged: boolean): Minimum => ({
    ...{ point, value, rounding, evaluations, converged },
  });
  // A first step of 1 could lead from the usual start to a variance of zero, where the slope says nothing.
  const unknown = { promised: Number.POSITIVE_INFINITY, radius: 0.5 };
  let state: State = measure(counted, { point: start, here: first, ...unknown });
  for (let step = 0; step < mostSteps; step++) {
    const { point, here, measured } = state;
    const eigen = symmetricEigen(state.hessian, point.length);
    const share = newtonStep(eigen, here.gradient, state.radius).promise / (1 + Math.abs(here.value));
    const stalled = share > state.promised / 4;
    if (!measured && share < near) state = measure(counted, state);
    else if (measured && (share <= negligible || (share <= roundingOf(here) && stalled))) {
      const lower = besideSaddle(counted, eigen, point, here);
      if (lower === undefined) return ending(state, true);
      state = measure(counted, { ...unknown, ...lower });
    } else {
      const next = advance(counted, state, eigen, share);
      if (next === undefined && measured) return ending(state, share < Math.max(1e-9, roundingOf(here)));
      const again = next === undefined || (measured && share < near && stalled);
      state = again ? measure(counted, next ?? state) : next;
    }
  }
  return ending(state, false);
}

/** One accepted step, with the second derivatives updated. Undefined where no step is accepted. */
function advance(evaluate: SmoothFunction, state: State, eigen: Eigen, share: number): State | undefined {
  const { point, here } = state;
  const tolerance = Math.max(1e-13 * (1 + Math.abs(here.value)), here.rounding ?? 0);
  let { radius } = state;
  while (radius > 1e-12) {
    const { move, length } = newtonStep(eigen, here.gradient, radius);
    const candidate = point.map((value, at) => value + move[at]!);
    const there = evaluate(candidate);
    if (there !== undefined && there.value <= here.value + tolerance) {
      const reached = length > 0.9 * radius && there.value < here.value;
      const next = { point: candidate, here: there, radius: reached ? 2 * radius : radius, promised: share };
      const change = there.gradient.map((value, at) => value - here.gradient[at]!);
      if (state.measured && share < near) {
        // Where the function curves upward only, an update keeps it so.
        const better = share > leastChange && eigen.values.every((curvature) => curvature > 0);
        const hessian = (better ? updated(state.hessian, move, change) : undefined) ?? state.hessian;
        return { ...next, hessian, measured: true };
      }
      const hessian = updated(upward(eigen), move, change);
      return hessian ? { ...next, hessian, measured: false } : measure(evaluate, next);
    }
    radius = Math.min(radius, length) / 4;
  }
  return undefined;
}

/**
 * Forward differences of the gradient, made symmetric. Good to some six digits, which is enough to step by; wider, where rounding
 * would drown them.
 */
function measure(evaluate: SmoothFunction, from: Pick<State, 'point' | 'here' | 'radius' | 'promised'>): State {
  const { point, here } = from;
  const size = point.length;
  const hessian = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    const share = Math.max(1e-6, 0.1 * Math.sqrt(here.rounding ?? 0));
    const width = share * Math.max(0.1, Math.abs(point[row]!));
    const aside = Float64Array.from(point);
    aside[row] = point[row]! + width;
    const beyond = evaluate(aside)?.gradient;
    for (let column = 0; column < size; column++) {
      const slope = beyond === undefined ? Number(row === column) : (beyond[column]! - here.gradient[column]!) / width;
      hessian[row * size + column]! += slope / 2;
      hessian[column * size + row]! += slope / 2;
    }
  }
  return { ...from, hessian, measured: true };
}

/** The matrix with the eigenvalues' sizes for eigenvalues: what steps are made with. */
function upward({ values, vectors }: Eigen): Float64Array {
  const size = values.length;
  return vectors.map((_, at) => {
    const [row, column] = [Math.floor(at / size) * size, (at % size) * size];
    let sum = 0;
    for (let k = 0; k < size; k++) sum += Math.abs(values[k]!) * vectors[row + k]! * vectors[column + k]!;
    return sum;
  });
}

/** Makes second derivatives agree with the change of the gradient along a move. Undefined where it curves downward. */
function updated(hessian: Float64Array, move: Float64Array, change: Float64Array): Float64Array | undefined {
  const size = move.length;
  const expected = move.map((_, row) => {
    let sum = 0;
    for (let column = 0; column < size; column++) sum += hessian[row * size + column]! * move[column]!;
    return sum;
  });
  const along = inner(change, move);
  const expectedAlong = inner(expected, move);
  if (!(along > 1e-4 * expectedAlong && expectedAlong > 0)) return undefined;
  return hessian.map((value, at) => {
    const [row, column] = [Math.floor(at / size), at % size];
    return value + (change[row]! * change[column]!) / along - (expected[row]! * expected[column]!) / expectedAlong;
  });
}

/** A lower point a little way along the direction in which the function curves downward most, if there is one. */
function besideSaddle(
  evaluate: SmoothFunction,
  { values, vectors }: Eigen,
  point: Float64Array,
  here: Evaluation,
): { readonly point: Float64Array; readonly here: Evaluation } | undefined {
  const size = point.length;
  const largest = values.reduce((most, curvature) => Math.max(most, Math.abs(curvature)), 0);
  const steepest = values.reduce((least, curvature, k) => (curvature < values[least]! ? k : least), 0);
  if (size === 0 || values[steepest]! > -1e-5 * largest) return undefined;
  const aside = point.map((value, row) => value + 0.01 * vectors[row * size + steepest]!);
  const there = evaluate(aside);
  return there !== undefined && there.value < here.value ? { point: aside, here: there } : undefined;
}

function newtonStep(
  { values, vectors }: Eigen,
  gradient: Float64Array,
  radius: number,
): { readonly move: Float64Array; readonly length: number; readonly promise: number } {
  const size = gradient.length;
  const largest = values.reduce((most, curvature) => Math.max(most, Math.abs(curvature)), 0);
  const floor = Math.max(1e-10 * largest, Number.MIN_VALUE);
  const move = new Float64Array(size);
  let promise = 0;
  for (let k = 0; k < size; k++) {
    let along = 0;
    for (let row = 0; row < size; row++) along += vectors[row * size + k]! * gradient[row]!;
    const curvature = Math.max(Math.abs(values[k]!), floor);
    promise += (along * along) / (2 * curvature);
    for (let row = 0; row < size; row++) move[row]! -= (vectors[row * size + k]! * along) / curvature;
  }
  const length = Math.hypot(...move);
  if (length <= radius) return { move, length, promise };
  return { move: move.map((part) => (part * radius) / length), length: radius, promise };
}

function inner(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < one.length; k++) sum += one[k]! * other[k]!;
  return sum;
}
