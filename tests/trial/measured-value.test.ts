import { expect, it } from 'vitest';
import { measuredValue } from '../../src/trial/measured-value.js';

it('measuredValue(reading): the number, be it 0, and no number for a limit of detection or a missing value', () => {
  expect(measuredValue({ value: { kind: 'measured', value: 0 } })).toBe(0);
  expect(measuredValue({ value: { kind: 'below-detection', limit: 0.5 } })).toBeUndefined();
  expect(measuredValue({ value: { kind: 'missing' } })).toBeUndefined();
});
