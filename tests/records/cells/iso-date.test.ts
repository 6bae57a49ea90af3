import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayFault, dayOrTimeFault } from '../../../src/records/cells/iso-date.js';

describe('dayFault(text)', () => {
  it('agrees with the calendar of JavaScript on every day from 1900 to 2199', () => {
    const days = fc.tuple(
      fc.integer({ min: 1900, max: 2199 }),
      fc.integer({ min: 0, max: 13 }),
      fc.integer({ min: 0, max: 32 }),
    );
    fc.assert(
      fc.property(days, ([year, month, day]) => {
        const text = `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
        const date = new Date(`${text}T00:00:00Z`);
        const exists = !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
        expect(dayFault(text) === undefined).toBe(exists);
      }),
      { numRuns: 2000 },
    );
  });

  it.each(['1900-02-29', '2100-02-29', '2023-02-29'])('%s: no leap year', (text) => {
    expect(dayFault(text)?.expected).toContain('has 28 days');
  });

  it.each(['2000-02-29', '2024-02-29'])('%s: a leap year', (text) => expect(dayFault(text)).toBeUndefined());

  it('takes no time', () => expect(dayFault('2024-03-01T08:30')).toBeDefined());
});

describe('dayOrTimeFault(text)', () => {
  it.each([
    '2024-03-01',
    '2024-03-01T00:00',
    '2024-03-01T23:59:59',
    '2024-03-01T08:30:00.250Z',
    '2024-03-01T08:30+01:00',
    '2024-03-01T08:30:15-11:30',
  ])('takes %s', (text) => expect(dayOrTimeFault(text)).toBeUndefined());

  it.each([
    '2024-03-01T24:00',
    '2024-03-01T08:60',
    '2024-03-01T08',
    '2024-03-01T8:30',
    '2024-03-01T08:30+15:00',
    '2024-03-01t08:30',
    '2024-02-30T08:30',
    '2024-3-1',
    '24-03-01',
    '',
  ])('refuses %s', (text) => expect(dayOrTimeFault(text)).toBeDefined());

  it.each([
    ['1.3.2024', '2024-03-01'],
    ['2024/3/1', '2024-03-01'],
    ['20240301', '2024-03-01'],
    ['13/03/2024', '2024-03-13'],
    ['03/13/2024', '2024-03-13'],
    ['2024-03-01 08:30', '2024-03-01T08:30'],
    // Day or month first cannot be told, or no such day exists.
    ['03/04/2024', undefined],
    ['31.2.2024', undefined],
    ['1 March 2024', undefined],
  ])('of %s suggests %s', (text, suggestion) => expect(dayOrTimeFault(text)?.suggestion).toBe(suggestion));
});
