import type { ResidualFit } from './mixed-model-fit.js';

/** Standard deviation of the residuals; that of the first group where groups differ. */
export function residualDeviation(residual: ResidualFit): number {
  return 'groups' in residual ? residual.groups[0]!.standardDeviation : residual.standardDeviation;
}
