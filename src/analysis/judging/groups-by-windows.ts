import type { Trial, Wall } from '../../trial/index.js';

/** Walls with the same windows: those with the plan's, and those with windows of their own that were treated together. */
export function groupsByWindows({ walls }: Trial): readonly (readonly Wall[])[] {
  const groups = new Map<string, Wall[]>();
  for (const wall of walls) {
    const key = JSON.stringify(wall.windows ?? null);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, [wall]);
    else known.push(wall);
  }
  return [...groups.values()];
}
