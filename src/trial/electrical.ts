import type { ElectrodePolarity } from './protocol.js';
import type { RowOrigin } from './recorded.js';

/** Voltage and current of one circuit of a wall at one time, or the moment at which it was switched off. */
export interface ElectricalRecord {
  /** ISO date, or date and time. */
  readonly time: string;
  readonly wall: string;
  /** The circuit: the name or the role of its electrode; absent where the wall has one circuit. */
  readonly electrode?: string;
  readonly voltage_v?: number;
  readonly current_a?: number;
  readonly polarity?: ElectrodePolarity;
  /** From this row until the next of the same circuit. */
  readonly state: 'on' | 'off';
  readonly origin: RowOrigin;
}
