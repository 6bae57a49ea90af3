import { mean } from '../statistics/index.js';
import type { Protocol } from '../trial/index.js';
import { beforeByWall } from './before-by-wall.js';
import type { Reason } from './reason.js';
import type { StationChange } from './wall-change.js';

export interface MarginFromMark {
  /** In the outcome's unit, rounded to three significant digits, so that the margin printed is the margin used. */
  readonly margin: number;
  /** Mean over walls of what they held before. */
  readonly before: number;
  readonly walls: number;
}

/**
 * The margin that a pass mark comes to, from the readings before the treatment alone: a reduction is that share of what the
 * walls of the comparison held, a target its distance from it. Every wall read before counts once, whether or not it was read
 * again, so that nothing that came later can move the margin; a share of the untreated walls' after mean, which is how a
 * reduction is published, is seen only when the trial is over.
 *
 * @param stations of the walls of the comparison
 * @returns the reason where the mark comes to no margin; nothing where it is not to be one
 * @example
 * const passMark = { kind: 'reduction', reduction_pct: 50, source: 'an agreement', asMargin: true };
 * marginFromMark({ ...trial.protocol, passMark }, changes.stations) // { margin: 4.47, before: 8.941, walls: 24 }
 */
export function marginFromMark(
  { passMark, outcome }: Protocol,
  stations: readonly StationChange[],
): MarginFromMark | Reason | undefined {
  if (passMark === undefined || !passMark.asMargin) return undefined;
  const walls = beforeValues(stations);
  if (walls.length === 0) return { code: 'no-before-in-comparison' };
  const before = mean(walls);
  const away =
    passMark.kind === 'reduction'
      ? (before * passMark.reduction_pct) / 100
      : (before - passMark.target) * (outcome.better === 'lower' ? 1 : -1);
  const margin = Number(away.toPrecision(3));
  if (margin > 0) return { margin, before, walls: walls.length };
  return { code: passMark.kind === 'reduction' ? 'nothing-held-before' : 'at-target-before' };
}

function beforeValues(stations: readonly StationChange[]): readonly number[] {
  return [...beforeByWall(stations).values()].map(mean);
}
