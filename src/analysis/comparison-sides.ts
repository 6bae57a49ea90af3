import type { Protocol } from '../trial/index.js';
import type { Side } from './wall-change.js';

/**
 * Which arms stand on which side of the primary comparison: as the protocol's `compare` says, else every treated role
 * against all others. An arm that `compare` does not name stands on neither side.
 *
 * @example comparisonSides(trial.protocol).get('sham') // 'untreated'
 */
export function comparisonSides(protocol: Protocol): ReadonlyMap<string, Side> {
  const { compare, arms } = protocol;
  if (compare === undefined)
    return new Map(arms.map(({ arm, role }) => [arm, role === 'treated' ? role : 'untreated']));
  return new Map<string, Side>([
    ...compare.treated.map((arm): [string, Side] => [arm, 'treated']),
    ...compare.untreated.map((arm): [string, Side] => [arm, 'untreated']),
  ]);
}
