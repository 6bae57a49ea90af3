import { describe, expect, it } from 'vitest';
import { visitsOf } from '../../src/findings/visits.js';
import type { MoistureReading } from '../../src/moisture/index.js';

const origin = { file: 'readings.csv', row: 2 };

function reading(day: string, wall: string, station = '', value = 5): MoistureReading {
  return { day, wall, station, instrument: 'core', value: { kind: 'measured', value }, origin };
}

describe('visitsOf(readings)', () => {
  const days = (...readings: MoistureReading[]) => visitsOf(readings).map(({ from, to }) => [from, to]);

  it('holds days up to three apart for one visit, and four for two', () => {
    expect(days(reading('2024-03-01', 'a'), reading('2024-03-04', 'b'))).toEqual([['2024-03-01', '2024-03-04']]);
    expect(days(reading('2024-03-01', 'a'), reading('2024-03-05', 'b'))).toHaveLength(2);
  });

  it('begins a visit where a place is read again on another day, not where it is read twice in a day', () => {
    expect(days(reading('2024-03-02', 'a'), reading('2024-03-01', 'a'))).toHaveLength(2);
    expect(days(reading('2024-03-01', 'a'), reading('2024-03-01', 'a'))).toHaveLength(1);
  });

  it('counts no value that is missing', () => {
    expect(visitsOf([{ ...reading('2024-03-01', 'a'), value: { kind: 'missing' } }])).toEqual([]);
  });

  it('takes months where it is told to', () => {
    const readings = ['2024-03-01', '2024-03-31', '2024-04-01', '2025-04-01'].map((day) => reading(day, 'a'));
    expect(visitsOf(readings, 'month').map(({ readings: own }) => own.length)).toEqual([2, 1, 1]);
  });
});
