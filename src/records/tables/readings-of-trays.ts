import { daysBetween, isIsoDay, isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import type { Instrument, Reading, TrayRecord } from '../../trial/index.js';

/**
 * Trays as readings of the instruments that stand for them. A refill is that of the days since the wall’s row before, in ml a day, dated on the
 * day of the refill; a wall’s first row says nothing of a rate. A mass is the mass.
 */
export function readingsOfTrays(
  trays: readonly TrayRecord[],
  instruments: readonly Pick<Instrument, 'instrument' | 'fromTrays'>[],
): readonly Reading[] {
  return instruments.flatMap(({ instrument, fromTrays }) => {
    if (fromTrays === undefined) return [];
    return trays.flatMap((tray): Reading[] => {
      const value = fromTrays === 'mass' ? tray.mass_kg : rateOf(tray, trays);
      if (value === undefined) return [];
      const { date, wall, reader, knewArm, origin } = tray;
      return [
        {
          ...{ date, wall, station: '', instrument, value: { kind: 'measured', value } },
          ...present({ reader, knewArm }),
          origin,
        },
      ];
    });
  });
}

function rateOf({ wall, date, refill_ml }: TrayRecord, trays: readonly TrayRecord[]): number | undefined {
  // A date that is none has been named already.
  const earlier = trays.filter((one) => one.wall === wall && one.date < date && isIsoDay(isoDay(one.date)));
  if (refill_ml === undefined || earlier.length === 0 || !isIsoDay(isoDay(date))) return undefined;
  return refill_ml / Math.min(...earlier.map((one) => daysBetween(one.date, date)));
}
