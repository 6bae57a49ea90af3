import type { MixedModel } from '../../../../src/statistics/models/mixed/mixed-model.js';
import type { MixedModelFit } from '../../../../src/statistics/models/mixed/mixed-model-fit.js';

/** Covariance components on the scale of the data. */
export interface Components {
  /** Covariance of the effects of one level, for each random term. */
  readonly terms: readonly (readonly (readonly number[])[])[];
  /** Covariance of the residuals of two observations. */
  readonly residual: (row: number, column: number) => number;
}

/** What a fit says the components are. */
export function componentsOf(fit: MixedModelFit): Components {
  return { terms: fit.random.map(({ covariance }) => covariance), residual: residualOf(fit) };
}

function residualOf({ residual, model }: MixedModelFit): Components['residual'] {
  const structure = model.residual ?? { kind: 'equal' };
  const deviation = (row: number): number => {
    if (!('groups' in residual)) return residual.standardDeviation;
    const label = 'groups' in structure ? String(structure.groups[row]) : '';
    return residual.groups.find(({ group }) => group === label)!.standardDeviation;
  };
  const correlation = (row: number, column: number): number => {
    if (!('correlation' in residual && 'series' in structure)) return Number(row === column);
    const { series, steps } = structure;
    return series[row] === series[column] ? residual.correlation ** Math.abs(steps[row]! - steps[column]!) : 0;
  };
  return (row, column) => {
    const alike = correlation(row, column);
    return alike === 0 ? 0 : alike * deviation(row) * deviation(column);
  };
}

export interface DenseAnswer {
  readonly logLikelihood: number;
  readonly coefficients: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

/** The likelihood as in the textbook, with the covariance of all observations written out and eliminated as one matrix. */
export function denseLikelihood(model: MixedModel, { terms, residual }: Components): DenseAnswer {
  const rows = model.response.map((_, row) => row);
  const design = model.fixed.columns.map(({ values }) => values);
  const covariance = rows.map((row) =>
    rows.map((column) =>
      model.random.reduce(
        (sum, term, at) => {
          if (term.groups[row] !== term.groups[column]) return sum;
          const columns = term.columns?.map(({ values }) => values) ?? [rows.map(() => 1)];
          return (
            sum +
            bilinear(
              terms[at]!,
              columns.map((c) => c[row]!),
              columns.map((c) => c[column]!),
            )
          );
        },
        residual(row, column),
      ),
    ),
  );
  const { solved, logDeterminant } = eliminate(covariance, [...design, model.response]);
  const weighted = design.map((column) => design.map((_, at) => dot(column, solved[at]!)));
  const right = design.map((column) => dot(column, solved[design.length]!));
  const identity = design.map((_, i) => design.map((__, j) => Number(i === j)));
  const inner = eliminate(weighted, [right, ...identity]);
  const coefficients = inner.solved[0]!;
  const squares = dot(model.response, solved[design.length]!) - dot(right, coefficients);
  const restricted = model.method === 'reml';
  const count = rows.length - (restricted ? design.length : 0);
  const determinants = logDeterminant + (restricted ? inner.logDeterminant : 0);
  return {
    logLikelihood: -0.5 * (count * Math.log(2 * Math.PI) + determinants + squares),
    coefficients,
    covariance: inner.solved.slice(1),
  };
}

function bilinear(matrix: readonly (readonly number[])[], left: readonly number[], right: readonly number[]): number {
  return left.reduce((sum, l, i) => sum + right.reduce((part, r, j) => part + l * matrix[i]![j]! * r, 0), 0);
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, at) => sum + value * other[at]!, 0);
}

/** Gaussian elimination with row exchanges: solutions for several right-hand sides, and the log-determinant. */
function eliminate(
  matrix: readonly (readonly number[])[],
  sides: readonly (readonly number[])[],
): { readonly solved: number[][]; readonly logDeterminant: number } {
  const size = matrix.length;
  const work = matrix.map((row, at) => [...row, ...sides.map((side) => side[at]!)]);
  let logDeterminant = 0;
  for (let pivot = 0; pivot < size; pivot++) {
    let best = pivot;
    for (let row = pivot + 1; row < size; row++) {
      if (Math.abs(work[row]![pivot]!) > Math.abs(work[best]![pivot]!)) best = row;
    }
    [work[pivot], work[best]] = [work[best]!, work[pivot]!];
    const head = work[pivot]!;
    logDeterminant += Math.log(Math.abs(head[pivot]!));
    for (let row = pivot + 1; row < size; row++) {
      const factor = work[row]![pivot]! / head[pivot]!;
      for (let column = pivot; column < head.length; column++) work[row]![column]! -= factor * head[column]!;
    }
  }
  const solved = sides.map((_, side) => {
    const answer = new Array<number>(size).fill(0);
    for (let row = size - 1; row >= 0; row--) {
      let sum = work[row]![size + side]!;
      for (let k = row + 1; k < size; k++) sum -= work[row]![k]! * answer[k]!;
      answer[row] = sum / work[row]![row]!;
    }
    return answer;
  });
  return { solved, logDeterminant };
}
