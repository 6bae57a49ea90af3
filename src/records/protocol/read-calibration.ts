import type { CalibrationPlan } from '../../trial/index.js';
import { isOfRealSize } from '../cells/number-cell.js';
import { fieldsOf, type JsonFields, numberOf } from './json-fields.js';

/** How near a core and a reading of a meter must be to calibrate it; both limits are stated or neither. */
export function readCalibration(root: JsonFields): CalibrationPlan | undefined {
  const place = root.get('calibration');
  const fields = place && fieldsOf(place, ['days', 'distance_mm']);
  if (fields === undefined) return undefined;
  const daysExpected = 'at most how many days lie between core and reading, a whole number from 0';
  const distanceExpected = 'at most how far apart on the wall core and reading are, in mm, 0 or more';
  const days = numberOf(
    fields.need('days', daysExpected),
    daysExpected,
    (value) => Number.isSafeInteger(value) && value >= 0,
  );
  const distance_mm = numberOf(
    fields.need('distance_mm', distanceExpected),
    distanceExpected,
    (value) => value >= 0 && isOfRealSize(value),
  );
  return days === undefined || distance_mm === undefined ? undefined : { days, distance_mm };
}
