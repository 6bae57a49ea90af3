import { createHash } from 'node:crypto';
import type { Protocol } from '../../trial/index.js';

/**
 * The plan with its seed as a digest: whoever has a seed and a plan can draw the arms again, and a seal is there to be shown. Whoever has the
 * seed finds the digest: `printf 20240301 | sha256sum`. A digest keeps a secret only as well as the number is hard to guess.
 *
 * @example withSealedSeed(trial.protocol).allocation.seed // undefined
 */
export function withSealedSeed(protocol: Protocol): Protocol {
  const { seed, ...allocation } = protocol.allocation;
  if (seed === undefined) return protocol;
  const seedSha256 = createHash('sha256').update(String(seed)).digest('hex');
  return { ...protocol, allocation: { ...allocation, seedSha256 } };
}
