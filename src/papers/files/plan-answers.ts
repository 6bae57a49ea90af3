import { planLeaves } from '../../forms/plan-leaves.js';
import type { PlanAnswers } from '../../forms/trial-sheets.js';
import type { SizedPlan } from '../../records/index.js';
import { planJson } from '../../records/lock/plan-json.js';

/**
 * The plan as dotted keys and answers, as a sheet `plan` has them. Its seed is not among them: the trial folder goes to those who read,
 * and whoever has the seed and the plan can draw the arms again.
 */
export function planAnswers({ allocation, ...plan }: SizedPlan): PlanAnswers {
  const { seed: _, ...withoutSeed } = allocation;
  return new Map(planLeaves(planJson({ ...plan, allocation: withoutSeed })).filter(([, answer]) => answer !== ''));
}
