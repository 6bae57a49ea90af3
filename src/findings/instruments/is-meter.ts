import type { InstrumentKind } from '../../trial/index.js';

const meters: ReadonlySet<InstrumentKind> = new Set([
  'microwave',
  'resistance',
  'capacitance',
  'humidity-probe',
  'embedded-sensor',
]);

/** Whether an instrument shows an index that cores could turn into moisture. A potential is no measure of the amount of water. */
export function isMeter(kind: InstrumentKind): boolean {
  return meters.has(kind);
}
