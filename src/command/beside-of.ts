import type { Opinion } from '../opinion/index.js';
import { present } from '../plain/present.js';
import { nearestRates, nextTrial } from '../planning/index.js';
import type { BesideOpinion } from '../report/index.js';
import type { Trial } from '../trial/index.js';

/** What the planning room has to say of an opinion. */
export function besideOf(trial: Trial, opinion: Opinion): BesideOpinion {
  const [errorRates, next] = [nearestRates(opinion), nextTrial(trial, opinion)];
  return {
    ...present({ errorRates, nextTrial: next }),
  };
}
