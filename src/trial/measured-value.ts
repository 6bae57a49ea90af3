import type { Recorded } from './recorded.js';

/** The number that was read; undefined for a missing value and for one below the detection limit. */
export function measuredValue({ value }: { readonly value: Recorded }): number | undefined {
  return value.kind === 'measured' ? value.value : undefined;
}
