import { groupBy } from '../../plain/group-by.js';
import type { Trial, Wall } from '../../trial/index.js';

/** Walls with the same windows: those with the plan's, and those with windows of their own that were treated together. */
export function groupsByWindows({ walls }: Trial): readonly (readonly Wall[])[] {
  return [...groupBy(walls, ({ windows }) => JSON.stringify(windows ?? null)).values()];
}
