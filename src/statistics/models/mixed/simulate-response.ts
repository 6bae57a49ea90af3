import { normalDraws } from '../../resampling/random/normal-draws.js';
import type { RandomStream } from '../../resampling/random/random-stream.js';
import { effectFactors } from './describe-fit.js';
import { termOrder } from './deviance-problem.js';
import { grouping } from './grouping.js';
import type { MixedModelFit } from './mixed-model-fit.js';
import { residualDeviation } from './residual-deviation.js';
import { seriesSteps } from './series-steps.js';

/**
 * A response such as the fitted model would produce: its fixed effects, new random effects, new residuals.
 *
 * @example simulateResponse(mixedFit, randomStream(20240201)).length // 12
 */
export function simulateResponse(fit: MixedModelFit, stream: RandomStream): number[] {
  const { model, workings } = fit;
  const first = residualDeviation(fit.residual);
  const response = residualDraws(fit, stream);
  model.fixed.columns.forEach(({ values }, at) => {
    const { estimate } = fit.coefficients[at]!;
    for (let row = 0; row < response.length; row++) response[row]! += estimate * values[row]!;
  });
  const factors = effectFactors(workings.problem, workings.point);
  const order = termOrder(workings.groupings);
  model.random.forEach((term, at) => {
    const { levels, codes } = workings.groupings[at]!;
    const factor = factors[order[at]!]!;
    const size = Math.sqrt(factor.length);
    const draws = normalDraws(stream, levels.length * size);
    for (let row = 0; row < response.length; row++) {
      const start = codes[row]! * size;
      for (let column = 0; column < size; column++) {
        let effect = 0;
        for (let k = 0; k <= column; k++) effect += factor[column * size + k]! * draws[start + k]!;
        response[row]! += first * effect * (term.columns?.[column]?.values[row] ?? 1);
      }
    }
  });
  return response;
}

function residualDraws({ model, residual, observations }: MixedModelFit, stream: RandomStream): number[] {
  const draws = Array.from(normalDraws(stream, observations));
  const structure = model.residual;
  if ('correlation' in residual && structure !== undefined && 'series' in structure) {
    for (const { earlier, later, gap } of seriesSteps(grouping(structure.series), structure.steps)) {
      const carried = residual.correlation ** gap;
      draws[later] = carried * draws[earlier]! + Math.sqrt(1 - carried * carried) * draws[later]!;
    }
  }
  if ('groups' in residual && structure !== undefined && 'groups' in structure) {
    const { codes } = grouping(structure.groups);
    return draws.map((draw, row) => draw * residual.groups[codes[row]!]!.standardDeviation);
  }
  const standardDeviation = residualDeviation(residual);
  return draws.map((draw) => draw * standardDeviation);
}
