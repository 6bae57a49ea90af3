import type { Protocol } from './protocol.js';

/**
 * Whether the outcome is an amount of something, with a zero: a share of an index has no meaning.
 *
 * @example isAmount(trial.protocol) // true
 */
export function isAmount({ instruments, outcome }: Pick<Protocol, 'instruments' | 'outcome'>): boolean {
  const kind = instruments.find(({ instrument }) => instrument === outcome.instrument)?.kind;
  return kind === 'gravimetric' || kind === 'direct';
}
