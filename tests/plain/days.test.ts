import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  dayNumber,
  dayOfNumber,
  daysBetween,
  everyDay,
  isIsoDay,
  isoDay,
  middleDay,
  msInDay,
} from '../../src/plain/days.js';

/** Of the years 1800 to 2299. */
const numbers = fc.integer({ min: -62_091, max: 120_528 });

describe('isoDay(date)', () => {
  it.each(['2024-03-12', '2024-03-12T08:30', '2024-03-12 08:30', '2024-03-12T08:30:00+01:00'])(
    'is the day of %s',
    (date) => expect(isoDay(date)).toBe('2024-03-12'),
  );
});

describe('isIsoDay(text)', () => {
  it.each(['2024-02-29', '2000-02-29', '2023-12-31', '2023-04-30', '0001-01-01'])('takes %s', (text) =>
    expect(isIsoDay(text)).toBe(true),
  );
  it.each([
    '2023-02-29',
    '1900-02-29',
    '2024-02-30',
    '2023-04-31',
    '2023-13-01',
    '2023-00-10',
    '2023-01-00',
    '2024-3-12',
    '12.03.2024',
    '2024-03-12T08:30',
    ' 2024-03-12',
    '',
  ])('refuses "%s"', (text) => expect(isIsoDay(text)).toBe(false));

  it('against the calendar of the language, for every day from 1896 to 2105', () => {
    const first = Date.UTC(1896, 0, 1) / msInDay;
    const days = Array.from({ length: 76_700 }, (_, at) => new Date((first + at) * msInDay).toISOString().slice(0, 10));
    expect(days.every(isIsoDay)).toBe(true);
    // Each month ends where the language says it does.
    const next = (day: string) => `${day.slice(0, 8)}${String(Number(day.slice(8)) + 1).padStart(2, '0')}`;
    expect(
      days.every((day, at) => at + 1 === days.length || isIsoDay(next(day)) === (days[at + 1] === next(day))),
    ).toBe(true);
  });
});

describe('dayNumber(date) and dayOfNumber(number)', () => {
  it('counts from 1970, leap days among them', () => {
    expect([dayNumber('1970-01-01'), dayNumber('1969-12-31')]).toEqual([0, -1]);
    // 30 years with 7 leap days, and the 60 days to 1 March of a leap year: worked by hand.
    expect(dayNumber('2000-03-01T23:59')).toBe(30 * 365 + 7 + 60);
  });

  it('are inverse', () => {
    fc.assert(
      fc.property(numbers, (number) => {
        expect(dayNumber(dayOfNumber(number))).toBe(number);
      }),
    );
  });

  it('leaves out a part of a day, before 1970 as well', () => {
    expect([dayOfNumber(0.999), dayOfNumber(-0.001)]).toEqual(['1970-01-01', '1969-12-31']);
  });

  it('refuses what is no day, and a number beyond all calendars', () => {
    for (const text of ['', '2024-02-30', 'yesterday']) expect(() => dayNumber(text)).toThrow(RangeError);
    for (const number of [Number.NaN, 1e9]) expect(() => dayOfNumber(number)).toThrow(RangeError);
  });
});

describe('daysBetween(from, to) and addDays(date, days)', () => {
  it('counts over leap days, and back', () => {
    expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2);
    expect(daysBetween('2023-02-28T12:00', '2023-03-01T01:00')).toBe(1);
    expect(daysBetween('2024-03-01', '2024-02-28')).toBe(-2);
    expect([addDays('2023-12-31T22:00', 1), addDays('2024-03-01', -1)]).toEqual(['2024-01-01', '2024-02-29']);
  });

  it('are inverse', () => {
    fc.assert(
      fc.property(numbers, fc.integer({ min: -4_000, max: 4_000 }), (number, days) => {
        const day = dayOfNumber(number);
        expect(daysBetween(day, addDays(day, days))).toBe(days);
      }),
    );
  });

  it('leaves out a part of a day', () => {
    expect([addDays('2024-03-01', 1.9), addDays('2024-03-01', -0.1)]).toEqual(['2024-03-02', '2024-02-29']);
  });

  it('refuses what is no day', () => {
    expect(() => daysBetween('2024-03-01', '')).toThrow(RangeError);
    expect(() => addDays('2024-02-30', 1)).toThrow(RangeError);
  });
});

describe('middleDay(span) and everyDay(span)', () => {
  it('takes the later of two middle days', () => {
    expect(middleDay({ from: '2024-03-01', to: '2024-03-03' })).toBe('2024-03-02');
    expect(middleDay({ from: '2024-03-01', to: '2024-03-04' })).toBe('2024-03-03');
  });

  it('counts both ends, one day where they are the same, none where it ends before it begins', () => {
    expect(everyDay({ from: '2023-12-30', to: '2024-01-01' })).toEqual(['2023-12-30', '2023-12-31', '2024-01-01']);
    expect(everyDay({ from: '2024-03-01', to: '2024-03-01' })).toEqual(['2024-03-01']);
    expect(everyDay({ from: '2024-03-02', to: '2024-03-01' })).toEqual([]);
  });
});
