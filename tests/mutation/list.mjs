import { analysisList } from './list/analysis.mjs';
import { dryingList } from './list/drying.mjs';
import { findingsList } from './list/findings.mjs';
import { limitsList } from './list/limits.mjs';
import { moistureList } from './list/moisture.mjs';
import { opinionList } from './list/opinion.mjs';
import { plainList } from './list/plain.mjs';
import { statisticsList } from './list/statistics.mjs';

/**
 * Faults that the tests must notice: limits moved, comparisons made sharp or blunt, signs, factors of units, degrees of freedom,
 * terms of formulae, the wrong arm.
 */
export const list = [
  ...limitsList,
  ...opinionList,
  ...findingsList,
  ...analysisList,
  ...moistureList,
  ...dryingList,
  ...statisticsList,
  ...plainList,
];
