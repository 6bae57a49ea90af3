import { describe, expect, it } from 'vitest';
import { statedTolerance } from '../../../src/moisture/index.js';

describe('statedTolerance(stopRule)', () => {
  it.each([
    ['change under 0.1 % of the mass in 24 h', 0.1],
    ['zwei Wägungen, Änderung < 0,2 M.-%', 0.2],
    ['less than half a gram, then 0.5 percent a day', 0.5],
    ['0.3 per cent', 0.3],
  ])('"%s" allows %f %%', (words, tolerance) => {
    expect(statedTolerance(words)).toBe(tolerance);
  });

  it.each([
    ['no number', 'constant mass'],
    ['hours only', 'after 48 h'],
    ['two numbers', '0.1 %, later 0.5 %'],
    ['a rule about the mass of water', 'change under 1 % of the water'],
    ['a humidity', 'cooled in air of 2 % RH'],
    ['a number that is no tolerance', '100 % of the cores weighed twice'],
  ])('says nothing of %s', (_, words) => {
    expect(statedTolerance(words)).toBeUndefined();
  });
});
