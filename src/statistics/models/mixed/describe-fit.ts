import { StatisticsError } from '../../statistics-error.js';
import type { LeastSquaresFit } from '../linear/least-squares.js';
import { completeFactor } from './block-cholesky.js';
import { type DevianceProblem, devianceAlone } from './deviance.js';
import { termOrder } from './deviance-problem.js';
import { coefficientFactor, squareOf } from './fixed-effects.js';
import { type Grouping, grouping } from './grouping.js';
import { isZeroDeviation } from './is-zero-deviation.js';
import type { MixedModel, RandomTerm } from './mixed-model.js';
import type { MixedModelFit, RandomTermFit, ResidualFit, Workings } from './mixed-model-fit.js';
import { relativeFactors } from './relative-factor.js';
import type { ScaledTerm } from './scaled-term.js';
import { solvedEffects } from './solved-effects.js';

/** Everything that is reported about a fit, on the scale of the data. */
export function describeFit(
  model: MixedModel,
  ordinary: LeastSquaresFit,
  workings: Workings,
  evaluations: number,
): MixedModelFit {
  const { problem, point, groupings, scale, turn } = workings;
  const trial = devianceAlone(problem, point);
  if (trial === undefined)
    throw new StatisticsError('fitMixedModel', 'not-converged', 'lost the minimum that it found');
  const { layout, workspace } = problem;
  const variance = trial.variance * scale * scale;
  const size = problem.fixedEffects;
  const covariance = squareOf(coefficientFactor(workspace.factor, layout, turn), size).map((entry) => entry * variance);
  completeFactor(workspace, layout, problem.order, trial.factors);
  const { random: effects, fixed } = solvedEffects(workspace.factor, layout, trial.factors);
  const coefficients = ordinary.coefficients.map(({ name, estimate }, row) => {
    let shift = 0;
    for (let k = row; k < size; k++) shift += turn[row * size + k]! * fixed[k]!;
    return { name, estimate: estimate + scale * shift, standardError: Math.sqrt(covariance[row * size + row]!) };
  });
  const factors = effectFactors(problem, point);
  const order = termOrder(groupings);
  const random = model.random.map((term, at) => {
    const place = order[at]!;
    const first = layout.effectStart[layout.termStart[place]!]!;
    const modes = modesOf(groupings[at]!, problem.terms[place]!, effects, first, scale);
    return describeTerm(term, factors[place]!, variance, modes);
  });
  const fitted = fittedValues(
    model,
    groupings,
    coefficients.map(({ estimate }) => estimate),
    random,
  );
  return {
    model,
    observations: problem.observations,
    coefficients,
    covariance,
    random,
    residual: describeResidual(model, Math.sqrt(variance), Array.from(point.subarray(problem.entries.length))),
    logLikelihood: -trial.deviance / 2,
    parameters: size + point.length + 1,
    boundary: model.random.filter((_, at) => isSingular(problem, point, order[at]!)).map(({ name }) => name),
    optimiser: { evaluations, converged: true },
    fitted,
    residuals: fitted.map((value, row) => model.response[row]! - value),
    workings,
  };
}

/** Relative covariance factors of the effects on the original columns. */
export function effectFactors({ terms, entries }: DevianceProblem, point: ArrayLike<number>): Float64Array[] {
  return relativeFactors(terms, entries, point).map((factor, at) => {
    const { size, unscale } = terms[at]!;
    return factor.map((_, index) => {
      const [row, column] = [Math.floor(index / size), index % size];
      let sum = 0;
      for (let k = column; k <= row; k++) sum += unscale[row * size + k]! * factor[k * size + column]!;
      return sum;
    });
  });
}

/** Effects of a term's levels on its original columns. */
function modesOf(
  { levels }: Grouping,
  { size, unscale }: ScaledTerm,
  effects: Float64Array,
  first: number,
  scale: number,
): RandomTermFit['modes'] {
  return levels.map((level, at) => {
    const start = first + at * size;
    const own: number[] = [];
    for (let row = 0; row < size; row++) {
      let sum = 0;
      for (let k = 0; k <= row; k++) sum += unscale[row * size + k]! * effects[start + k]!;
      own.push(sum * scale);
    }
    return { level, effects: own };
  });
}

function describeTerm(
  term: RandomTerm,
  factor: Float64Array,
  variance: number,
  modes: RandomTermFit['modes'],
): RandomTermFit {
  const size = Math.sqrt(factor.length);
  const indices = Array.from({ length: size }, (_, at) => at);
  const entry = (row: number, column: number) =>
    indices.reduce((sum, k) => sum + factor[row * size + k]! * factor[column * size + k]!, 0) * variance;
  const covariance = indices.map((row) => indices.map((column) => entry(row, column)));
  const standardDeviations = indices.map((k) => Math.sqrt(covariance[k]![k]!));
  const correlation = (row: number, column: number) => {
    if (row === column) return 1;
    const both = standardDeviations[row]! * standardDeviations[column]!;
    return both > 0 ? Math.max(-1, Math.min(1, covariance[row]![column]! / both)) : 0;
  };
  return {
    name: term.name,
    columns: term.columns?.map(({ name }) => name) ?? ['intercept'],
    covariance,
    standardDeviations,
    correlations: indices.map((row) => indices.map((column) => correlation(row, column))),
    modes,
  };
}

function fittedValues(
  model: MixedModel,
  groupings: readonly Grouping[],
  coefficients: readonly number[],
  random: readonly RandomTermFit[],
): number[] {
  const fitted = new Array<number>(model.response.length).fill(0);
  model.fixed.columns.forEach(({ values }, at) => {
    const coefficient = coefficients[at]!;
    for (let row = 0; row < fitted.length; row++) fitted[row]! += coefficient * values[row]!;
  });
  model.random.forEach((term, at) => {
    const { codes } = groupings[at]!;
    const { modes, columns } = random[at]!;
    for (let column = 0; column < columns.length; column++) {
      const effects = Float64Array.from(modes, (mode) => mode.effects[column]!);
      const values = term.columns?.[column]?.values;
      for (let row = 0; row < fitted.length; row++) fitted[row]! += effects[codes[row]!]! * (values?.[row] ?? 1);
    }
  });
  return fitted;
}

function describeResidual(
  { residual }: MixedModel,
  standardDeviation: number,
  parameters: readonly number[],
): ResidualFit {
  switch (residual?.kind) {
    case 'by-group':
      return { kind: 'by-group', groups: groupDeviations(residual.groups, standardDeviation, parameters) };
    case 'autoregressive':
      return { kind: 'autoregressive', standardDeviation, correlation: Math.tanh(parameters[0]!) };
    case 'autoregressive-by-group': {
      const [correlation, ...logRatios] = parameters;
      const groups = groupDeviations(residual.groups, standardDeviation, logRatios);
      return { kind: 'autoregressive-by-group', groups, correlation: Math.tanh(correlation!) };
    }
    default:
      return { kind: 'equal', standardDeviation };
  }
}

function groupDeviations(labels: readonly (string | number)[], first: number, logRatios: readonly number[]) {
  const ratios = [1, ...logRatios.map(Math.exp)];
  return grouping(labels).levels.map((group, at) => ({ group, standardDeviation: first * ratios[at]! }));
}

function isSingular(problem: DevianceProblem, point: Float64Array, term: number): boolean {
  return problem.entries.some((entry, at) => entry.term === term && isZeroDeviation(problem, point, at));
}
