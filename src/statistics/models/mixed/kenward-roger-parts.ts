import { inverse } from '../../numerics/matrix/square-matrix.js';
import { StatisticsError } from '../../statistics-error.js';
import { type DevianceProblem, factoriseAt } from './deviance.js';
import { relativeFactors } from './relative-factor.js';
import { solvedUnit } from './solved-unit.js';
import { type UnitProducts, unitProducts } from './unit-products.js';

/**
 * One way in which the covariance of the response depends on a covariance parameter: entries (row, column) and (column,
 * row) of a term's covariance. The residual variance comes last and has no term.
 */
interface Parameter {
  readonly term: number;
  readonly row: number;
  readonly column: number;
  /** Its value over the residual variance. */
  readonly value: number;
}

/**
 * What Kenward and Roger's adjustment is made of, for a residual variance of 1 and on the turned fixed columns; with V
 * the covariance of the response, V_r its derivative by a covariance parameter and X the fixed columns.
 */
export interface KenwardRogerParts {
  readonly size: number;
  /** Inverse of X' V^-1 X. */
  readonly unadjusted: Float64Array;
  /** -X' V^-1 V_r V^-1 X for each parameter. */
  readonly first: readonly Float64Array[];
  /** X' V^-1 V_r V^-1 V_s V^-1 X for each pair. */
  readonly second: readonly (readonly Float64Array[])[];
  /** tr(V^-1 V_r V^-1 V_s) for each pair. */
  readonly traces: readonly (readonly number[])[];
}

/**
 * Sums over units, none of which needs V or its inverse: with R the residual variance, Z' V^-1 Z and Z' V^-1 X follow
 * from cross-products. The residual's own parts follow from the others, because V is the sum of its derivatives times
 * the parameters.
 */
export function kenwardRogerParts(problem: DevianceProblem, point: Float64Array): KenwardRogerParts {
  const size = problem.fixedEffects;
  const factors = relativeFactors(problem.terms, problem.entries, point);
  const parameters = parametersOf(problem, factors);
  const count = parameters.length;
  const first = Array.from({ length: count + 1 }, () => new Float64Array(size * size));
  const second = square(count + 1, () => new Float64Array(size * size));
  const traces = square(count + 1, () => 0);
  const single = new Float64Array(count + 1);
  for (const unit of unitProducts(problem)) {
    const solved = solvedUnit(unit, problem, factors);
    parameters.forEach((parameter, r) => {
      const own = pick(unit, solved.fixed, size, parameter);
      addProduct(first[r]!, own, solved.fixed, unit.size, size, -1);
      single[r]! += traceWith(unit, solved.effects, parameter);
      const moved = multiply(solved.effects, own, unit.size, size);
      parameters.forEach((other, s) => {
        addProduct(second[s]![r]!, pick(unit, solved.fixed, size, other), moved, unit.size, size, 1);
        if (s >= r) traces[r]![s]! += traceOfPair(unit, solved.effects, parameter, other);
      });
    });
  }
  for (let r = 0; r < count; r++) for (let s = 0; s < r; s++) traces[r]![s] = traces[s]![r]!;
  const precision = fixedPrecision(problem, point);
  addResidualParts({ parameters, precision, single, first, second, traces, observations: problem.observations });
  return { size, unadjusted: inverse(precision, size), first, second, traces };
}

function square<T>(size: number, make: () => T): T[][] {
  return Array.from({ length: size }, () => Array.from({ length: size }, make));
}

function parametersOf({ entries, terms }: DevianceProblem, factors: readonly Float64Array[]): Parameter[] {
  return entries.map(({ term, row, column }) => {
    const { size } = terms[term]!;
    let value = 0;
    for (let k = 0; k < size; k++) value += factors[term]![row * size + k]! * factors[term]![column * size + k]!;
    return { term, row, column, value };
  });
}

/** The derivative of the effects' covariance by a parameter, times a matrix with a row for each effect of the unit. */
function pick(unit: UnitProducts, matrix: Float64Array, width: number, { term, row, column }: Parameter): Float64Array {
  const picked = new Float64Array(matrix.length);
  unit.terms.forEach((own, at) => {
    if (own !== term) return;
    const [up, down] = [(unit.starts[at]! + row) * width, (unit.starts[at]! + column) * width];
    for (let k = 0; k < width; k++) {
      picked[up + k]! += matrix[down + k]!;
      if (row !== column) picked[down + k]! += matrix[up + k]!;
    }
  });
  return picked;
}

function traceWith(unit: UnitProducts, effects: Float64Array, { term, row, column }: Parameter): number {
  let sum = 0;
  unit.terms.forEach((own, at) => {
    const start = unit.starts[at]!;
    if (own === term) sum += effects[(start + row) * unit.size + start + column]!;
  });
  return row === column ? sum : 2 * sum;
}

function traceOfPair(unit: UnitProducts, effects: Float64Array, one: Parameter, other: Parameter): number {
  const { size, starts, terms } = unit;
  const factor = (one.row === one.column ? 0.5 : 1) * (other.row === other.column ? 0.5 : 1) * 2;
  let sum = 0;
  for (let g = 0; g < terms.length; g++) {
    if (terms[g] !== one.term) continue;
    const [up, down] = [(starts[g]! + one.row) * size, (starts[g]! + one.column) * size];
    for (let h = 0; h < terms.length; h++) {
      if (terms[h] !== other.term) continue;
      const [left, right] = [starts[h]! + other.row, starts[h]! + other.column];
      sum += effects[up + left]! * effects[down + right]! + effects[up + right]! * effects[down + left]!;
    }
  }
  return factor * sum;
}

/** Adds one' times other, both with `rows` rows of `width` numbers. */
function addProduct(
  sum: Float64Array,
  one: Float64Array,
  other: Float64Array,
  rows: number,
  width: number,
  sign: number,
): void {
  for (let row = 0; row < rows; row++) {
    for (let i = 0; i < width; i++) {
      const weight = sign * one[row * width + i]!;
      if (weight === 0) continue;
      for (let j = 0; j < width; j++) sum[i * width + j]! += weight * other[row * width + j]!;
    }
  }
}

function multiply(matrix: Float64Array, other: Float64Array, size: number, width: number): Float64Array {
  const product = new Float64Array(size * width);
  for (let k = 0; k < size; k++) {
    for (let column = 0; column < width; column++) {
      const weight = other[k * width + column]!;
      if (weight === 0) continue;
      for (let row = 0; row < size; row++) product[row * width + column]! += matrix[row * size + k]! * weight;
    }
  }
  return product;
}

/** X' V^-1 X, from the factor. */
function fixedPrecision(problem: DevianceProblem, point: Float64Array): Float64Array {
  if (factoriseAt(problem, point) === undefined) {
    throw new StatisticsError('kenwardRoger', 'not-converged', 'needs a fit whose likelihood can be evaluated');
  }
  const { layout, fixedEffects: size, workspace } = problem;
  const { denseStart, denseSize, denseEffects } = layout;
  const precision = new Float64Array(size * size);
  const entry = (row: number, column: number) =>
    workspace.factor[denseStart + (denseEffects + row) * denseSize + denseEffects + column]!;
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      let sum = 0;
      for (let k = 0; k <= Math.min(row, column); k++) sum += entry(row, k) * entry(column, k);
      precision[row * size + column] = sum;
    }
  }
  return precision;
}

interface Sums {
  readonly parameters: readonly Parameter[];
  readonly precision: Float64Array;
  readonly single: Float64Array;
  readonly first: readonly Float64Array[];
  readonly second: readonly (readonly Float64Array[])[];
  readonly traces: number[][];
  readonly observations: number;
}

function addResidualParts({ parameters, precision, single, first, second, traces, observations }: Sums): void {
  const last = parameters.length;
  const weighted = (from: (r: number) => number) => parameters.reduce((sum, { value }, r) => sum + value * from(r), 0);
  const each = precision.map((_, at) => at);
  for (const at of each) first[last]![at] = -(precision[at]! + weighted((r) => first[r]![at]!));
  const size = Math.sqrt(precision.length);
  for (let s = 0; s < last; s++) {
    for (const at of each) second[last]![s]![at] = -first[s]![at]! - weighted((r) => second[r]![s]![at]!);
    for (const at of each) second[s]![last]![at] = second[last]![s]![(at % size) * size + Math.floor(at / size)]!;
    traces[last]![s] = single[s]! - weighted((r) => traces[r]![s]!);
    traces[s]![last] = traces[last]![s]!;
  }
  for (const at of each) second[last]![last]![at] = -first[last]![at]! - weighted((r) => second[r]![last]![at]!);
  const own = observations - weighted((r) => single[r]!);
  traces[last]![last] = own - weighted((r) => traces[r]![last]!);
}
