import { anyNumber, type NumberRule } from '../cells/number-cell.js';

// A height may lie below the floor, a depth not outside the wall.
export const height: NumberRule = { ...anyNumber, expected: 'a height in mm' };
export const depth: NumberRule = { accepts: (value) => value >= 0, expected: 'a depth in mm of 0 or more' };
