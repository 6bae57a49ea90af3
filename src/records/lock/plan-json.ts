import type { Protocol } from '../../trial/index.js';
import { format } from '../protocol/read-protocol.js';

/**
 * A plan as `protocol.json` holds it, from the plan as it was read: reading it again gives the same plan, whatever file or sheet it came from.
 *
 * @example planJson(trial.protocol).format // 'fairwall-trial/1'
 */
export function planJson(protocol: Protocol): Readonly<Record<string, unknown>> {
  const { passMark, ...plan } = protocol;
  if (passMark === undefined) return { format, ...plan };
  // The file says which kind of mark it is by its keys.
  const { kind: _, ...mark } = passMark;
  return { format, ...plan, passMark: mark };
}
