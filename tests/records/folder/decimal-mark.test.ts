import { expect, it } from 'vitest';
import { decimalMark } from '../../../src/records/folder/decimal-mark.js';

it.each([
  [['1.5', '2', 'NA', ''], 'comma', 'point'],
  [['1,5', '2'], 'comma', 'comma'],
  [['1,5', '2'], 'semicolon', 'comma'],
  [['1.5', '2'], 'semicolon', 'point'],
  [['<0,5'], 'semicolon', 'comma'],
  [['< 0,5', '-12,25', '1,5e-3'], 'comma', 'comma'],
  [['1', '20', '-3'], 'semicolon', undefined],
  [[], 'comma', undefined],
  // A comma before three digits may group thousands, unless semicolons separate the cells or another number tells.
  [['1,200', '12,345'], 'comma', undefined],
  [['1,200', '12,345'], undefined, undefined],
  [['1,200', '12,345'], 'semicolon', 'comma'],
  [['1,200', '0,345'], 'comma', 'comma'],
  [['1,200', '12,3'], 'comma', 'comma'],
  // Both marks: the more frequent one, the point in a tie.
  [['1.5', '2.5', '3,5'], 'semicolon', 'point'],
  [['1.5', '2,5', '3,5'], 'semicolon', 'comma'],
  [['1.5', '2,5'], 'semicolon', 'point'],
  [['1,200', '2,300', '4.5'], 'comma', 'point'],
] as const)('decimalMark(%j, %s): %s', (numbers, separator, mark) => {
  expect(decimalMark(numbers, separator)).toBe(mark);
});
