import { expect, it } from 'vitest';
import { checkedDayNumber } from '../../../src/moisture/reused/day-number.js';

it('counts days from 1970, leap days among them', () => {
  expect(checkedDayNumber('here', '1970-01-02')).toBe(1);
  // 30 years with 7 leap days, and the 60 days to 1 March of a leap year: worked by hand.
  expect(checkedDayNumber('here', '2000-03-01T09:30')).toBe(30 * 365 + 7 + 60);
});
