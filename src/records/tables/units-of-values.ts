import type { ProtocolFindings } from '../protocol/findings.js';

/** Which units may stand behind the values of an instrument. */
export type UnitsOfValues = (instrument: string, unit: string) => boolean;

/**
 * The unit of an outcome, or the first word of it (`%` of `% by mass`), and millivolts of a potential. Any other instrument shows a figure of
 * its own, to which a per cent sign adds nothing; units that change its size (`1.2 k`) stay unread.
 */
export function unitsOfValues({ outcome, instruments }: ProtocolFindings): UnitsOfValues {
  return (instrument, unit) => {
    if (instrument === outcome?.instrument && outcome.unit !== undefined)
      return unit === outcome.unit || unit === outcome.unit.split(' ')[0];
    const kind = instruments?.find((one) => one.instrument === instrument)?.kind;
    return unit === (kind === 'potential' ? 'mV' : '%');
  };
}
