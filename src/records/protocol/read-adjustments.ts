import type { AdjustmentName } from '../../trial/index.js';
import { alternatives } from '../quoted.js';
import { choiceOf, type JsonFields, listOf } from './json-fields.js';

export const adjustmentNames = ['season', 'weather', 'rain', 'heating'] as const satisfies readonly AdjustmentName[];

/** The adjustments that were chosen before the readings, none where the plan names none. */
export function readAdjustments(root: JsonFields): readonly AdjustmentName[] | undefined {
  const entries = listOf(root.get('adjustments'), `a list of ${alternatives(adjustmentNames)}`);
  return entries?.flatMap((entry) => choiceOf(entry, adjustmentNames) ?? []);
}
