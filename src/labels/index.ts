import type { Estimate } from '../analysis/index.js';
import { present } from '../plain/present.js';
import { assumptionsOf } from './assumptions-of.js';
import { labelOf } from './label-of.js';
import { methodOf } from './method-of.js';
import { quantityOf } from './quantity-of.js';
import { sourceOf } from './source-of.js';

export { dryingShapeInWords } from './drying-shape-in-words.js';
export { labelOf } from './label-of.js';
export { readingLeftOutInWords, wallLeftOutInWords } from './left-out-in-words.js';
export { reasonInWords } from './reason-in-words.js';

/** An analysis in words: its standard name, what it estimates, how, under which assumptions, and who published the method. */
export interface EstimateInWords {
  readonly label: string;
  readonly quantity: string;
  /** One sentence, without its full stop. */
  readonly method: string;
  readonly assumptions: readonly string[];
  /** Absent where the method is this project's own. */
  readonly source?: string;
}

/**
 * The words that go with an estimate, looked up by its id and the facts of its method.
 *
 * @example estimateInWords(baselineAdjusted(design, { level: 0.95, unit: '% by mass' }).estimate).label // 'Baseline-adjusted (ANCOVA)'
 */
export function estimateInWords(estimate: Estimate): EstimateInWords {
  const source = sourceOf(estimate.method);
  return {
    label: labelOf(estimate),
    quantity: quantityOf(estimate),
    method: methodOf(estimate),
    assumptions: assumptionsOf(estimate),
    ...present({ source }),
  };
}
