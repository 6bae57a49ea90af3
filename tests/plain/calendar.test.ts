import { describe, expect, it } from 'vitest';
import { daysInMonth, daysInYear, lengthOfMonth, monthNumber, yearsLater } from '../../src/plain/calendar.js';

describe('lengthOfMonth(year, month)', () => {
  it('against the calendar of the language, for every month from 1896 to 2405', () => {
    const wrong = Array.from(
      { length: 510 * 12 },
      (_, at) => [1896 + Math.floor(at / 12), 1 + (at % 12)] as const,
    ).filter(([year, month]) => lengthOfMonth(year, month) !== new Date(Date.UTC(year, month, 0)).getUTCDate());
    expect(wrong).toEqual([]);
  });

  it('against the length of a year: 400 of them are what its mean says', () => {
    const months = Array.from({ length: 4_800 }, (_, at) => lengthOfMonth(2000 + Math.floor(at / 12), 1 + (at % 12)));
    expect(months.reduce((sum, days) => sum + days, 0)).toBe(Math.round(400 * daysInYear));
    expect(12 * daysInMonth).toBe(365.25);
  });
});

describe('monthNumber(date)', () => {
  it('grows by one from month to month, over the turn of a year as well', () => {
    expect(monthNumber('2024-01-01T12:00') - monthNumber('2023-12-31')).toBe(1);
    expect(monthNumber('2024-03-01')).toBe(monthNumber('2024-03-31'));
    expect([monthNumber('2024-01-15') % 12, monthNumber('2024-12-15') % 12]).toEqual([0, 11]);
  });
});

describe('yearsLater(day, years, leapDay)', () => {
  it('keeps the day of the year', () => {
    expect(yearsLater('2024-03-12', 3, 'after')).toBe('2027-03-12');
    expect(yearsLater('2024-02-28', 1, 'after')).toBe('2025-02-28');
  });

  it('turns 29 February into the day before or after it, only in a year without one', () => {
    expect([yearsLater('2024-02-29', 1, 'before'), yearsLater('2024-02-29', 1, 'after')]).toEqual([
      '2025-02-28',
      '2025-03-01',
    ]);
    expect([yearsLater('2024-02-29', 4, 'before'), yearsLater('2024-02-29', 4, 'after')]).toEqual([
      '2028-02-29',
      '2028-02-29',
    ]);
    expect(yearsLater('2096-02-29', 4, 'after')).toBe('2100-03-01');
  });
});
