import { type Eigen, symmetricEigen } from '../matrix/symmetric-eigen.js';

/** A smooth function and its gradient; undefined where it cannot be evaluated. */
export type SmoothFunction = (
  point: Float64Array,
) => { readonly value: number; readonly gradient: Float64Array } | undefined;

export interface Minimum {
  readonly point: Float64Array;
  readonly value: number;
  /** Second derivatives at the point, row-major. */
  readonly hessian: Float64Array;
  /** Decrease that a further step still promises: half the gradient times the inverse second derivatives times the gradient. */
  readonly promise: number;
  readonly evaluations: number;
  readonly converged: boolean;
}

const mostSteps = 200;
/** A step that promises less than this share of the value moves the point by less than some 1e-10 of its scale. */
const negligible = 1e-22;
/** Below this share, a promise that no longer shrinks is made of rounding errors. */
const rounding = 1e-14;

/**
 * Newton's method inside a trust region, with second derivatives from differences of the gradient. Directions in which the function
 * curves downward are walked with the size of their curvature, so that saddle points repel (Nocedal and Wright, Numerical
 * Optimization, 2nd ed. 2006, section 3.4: modified Newton directions).
 */
export function minimise(evaluate: SmoothFunction, start: Float64Array): Minimum {
  let evaluations = 0;
  const counted: SmoothFunction = (point) => {
    evaluations += 1;
    return evaluate(point);
  };
  let point = start;
  let here = counted(point);
  if (here === undefined) throw new RangeError('minimise needs a start at which the function can be evaluated');
  let radius = 1;
  let promised = Number.POSITIVE_INFINITY;
  for (let step = 0; step < mostSteps; step++) {
    const hessian = differencedHessian(counted, point, here.gradient);
    const eigen = symmetricEigen(hessian, point.length);
    const direction = newtonStep(eigen, here.gradient, here.value, radius);
    const share = direction.promise / (1 + Math.abs(here.value));
    if (share <= negligible || (share <= rounding && share > promised / 4)) {
      const aside = besideSaddle(eigen, point);
      const lower = aside && counted(aside);
      if (aside !== undefined && lower !== undefined && lower.value < here.value) {
        point = aside;
        here = lower;
        continue;
      }
      return { point, value: here.value, hessian, promise: direction.promise, evaluations, converged: true };
    }
    promised = share;
    const tolerance = 1e-13 * (1 + Math.abs(here.value));
    let moved = false;
    while (!moved && radius > 1e-12) {
      const { move, length } = newtonStep(eigen, here.gradient, here.value, radius);
      const candidate = point.map((value, at) => value + move[at]!);
      const there = counted(candidate);
      if (there !== undefined && there.value <= here.value + tolerance) {
        const drop = here.value - there.value;
        if (length > 0.9 * radius && drop > 0) radius *= 2;
        point = candidate;
        here = there;
        moved = true;
      } else radius = Math.min(radius, length) / 4;
    }
    if (!moved) {
      const converged = direction.promise < 1e-9;
      return { point, value: here.value, hessian, promise: direction.promise, evaluations, converged };
    }
  }
  const hessian = differencedHessian(counted, point, here.gradient);
  return { point, value: here.value, hessian, promise: Number.POSITIVE_INFINITY, evaluations, converged: false };
}

/** A point a little way along the direction in which the function curves downward most, if there is one. */
function besideSaddle({ values, vectors }: Eigen, point: Float64Array): Float64Array | undefined {
  const size = point.length;
  const largest = values.reduce((most, curvature) => Math.max(most, Math.abs(curvature)), 0);
  const steepest = values.reduce((least, curvature, k) => (curvature < values[least]! ? k : least), 0);
  if (size === 0 || values[steepest]! > -1e-5 * largest) return undefined;
  return point.map((value, row) => value + 0.01 * vectors[row * size + steepest]!);
}

/** Forward differences of the gradient, made symmetric. Good to some six digits, which is enough to step by. */
function differencedHessian(evaluate: SmoothFunction, point: Float64Array, gradient: Float64Array): Float64Array {
  const size = point.length;
  const hessian = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    const width = 1e-6 * Math.max(0.1, Math.abs(point[row]!));
    const aside = Float64Array.from(point);
    aside[row] = point[row]! + width;
    const beyond = evaluate(aside)?.gradient;
    for (let column = 0; column < size; column++) {
      const slope = beyond === undefined ? Number(row === column) : (beyond[column]! - gradient[column]!) / width;
      hessian[row * size + column]! += slope / 2;
      hessian[column * size + row]! += slope / 2;
    }
  }
  return hessian;
}

function newtonStep(
  { values, vectors }: Eigen,
  gradient: Float64Array,
  value: number,
  radius: number,
): { readonly move: Float64Array; readonly length: number; readonly promise: number } {
  const size = gradient.length;
  const largest = values.reduce((most, curvature) => Math.max(most, Math.abs(curvature)), 0);
  const floor = Math.max(1e-10 * largest, 1e-8 * (1 + Math.abs(value)) * Number.EPSILON, Number.MIN_VALUE);
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
