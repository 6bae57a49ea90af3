import { type MarginFromMark, marginFromMark, type Reason, type StationChange } from '../analysis/index.js';
import type { Trial } from '../trial/index.js';

/** Where the margin that the verdict is held against comes from. */
export type MarginOrigin =
  | { readonly kind: 'stated' }
  | ({ readonly kind: 'from-pass-mark' } & MarginFromMark)
  /** With the reason, where a pass mark was to give the margin and could not. */
  | { readonly kind: 'none'; readonly reason?: Reason };

/**
 * The trial with its margin as a number, whether the plan states it or takes it from a pass mark: everything after this sees one
 * number and nothing of where it came from.
 */
export function withMargin(
  trial: Trial,
  stations: readonly StationChange[],
): { readonly trial: Trial; readonly origin: MarginOrigin } {
  const found = marginFromMark(trial.protocol, stations);
  if (found === undefined) return { trial, origin: { kind: trial.protocol.margin === undefined ? 'none' : 'stated' } };
  if ('code' in found) return { trial, origin: { kind: 'none', reason: found } };
  const protocol = { ...trial.protocol, margin: found.margin };
  return { trial: { ...trial, protocol }, origin: { kind: 'from-pass-mark', ...found } };
}
