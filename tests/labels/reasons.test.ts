import { describe, expect, it } from 'vitest';
import type { PlainReason, Reason } from '../../src/analysis/index.js';
import { faultInWords } from '../../src/labels/fault-in-words.js';
import { dryingShapeInWords, reasonInWords } from '../../src/labels/index.js';
import { plainReasons } from '../../src/labels/plain-reasons.js';

describe('reasonInWords(reason)', () => {
  it.each<[Reason, string]>([
    [
      { code: 'too-few-visits-after', needed: 4, most: 3 },
      'a curve needs at least 4 visits after the treatment in both arms, and the walls have 3 at most',
    ],
    [{ code: 'wall-with-few-visits', needed: 4 }, 'fewer than 4 visits after the treatment'],
    [{ code: 'unit-without-mass', unit: 'ml/day' }, 'an outcome in ml/day says nothing of kilograms of water'],
    [
      { code: 'no-sensors-at-heights', needed: 3 },
      'no wall has embedded sensors at 3 heights that were read before its treatment',
    ],
    [{ code: 'too-few-doses', walls: 1, needed: 3 }, '1 treated wall has a dose and a change, and a slope takes three'],
    [
      { code: 'too-few-doses', walls: 2, needed: 3 },
      '2 treated walls have a dose and a change, and a slope takes three',
    ],
    [
      { code: 'sealed-in-other-unit', locked: 'digits', now: '% by mass', instrument: 'mw' },
      'the outcome was sealed in digits and is in % by mass, and readings of mw bear one unit only',
    ],
    [
      { code: 'too-few-pairs', pairs: 0, walls: 0, needed: 3 },
      'no core was drilled where and when it was read, and a calibration takes 3 cores with readings, from 3 walls',
    ],
    [
      { code: 'too-few-pairs', pairs: 6, walls: 2, needed: 3 },
      'a calibration takes 3 pairs of core and reading, from 3 walls, and there are 6 pairs from 2 walls',
    ],
    [
      { code: 'not-calibrated', because: { code: 'no-cores-beside' } },
      'uncalibrated, its readings stay an index: there are no cores beside it',
    ],
    [{ code: 'reading-runs-other-way', readingRises: 'with-moisture' }, 'its readings do not rise with moisture'],
    [{ code: 'reading-runs-other-way', readingRises: 'against-moisture' }, 'its readings do not fall with moisture'],
    [{ code: 'too-few-walls-by-both', walls: 3, needed: 4 }, '3 walls have a change by both, and it takes 4'],
    [
      { code: 'too-few-checks', checks: 2, blocks: 1 },
      'there are 2 checks of 1 block, and it takes at least two more than blocks',
    ],
    [{ code: 'too-few-reversals', pairs: 1, needed: 2 }, '1 place was read with both leads on a day, and it takes 2'],
    [
      { code: 'too-few-measured', needed: 1, walls: ['T1', 'T2'] },
      'it takes one measured reading of a wall in each window, and there are fewer of T1 and T2',
    ],
    [
      { code: 'too-few-measured', needed: 2, walls: ['T1'] },
      'it takes two measured readings that differ of a wall in each window, and there are fewer of T1',
    ],
    [{ code: 'refused', fault: 'not-converged' }, 'its equations have no solution that could be found'],
    [
      { code: 'batch-air-unlike' },
      'the batch was brought to another humidity than most, or to a temperature more than 2 °C away (our convention)',
    ],
  ])('%o', (reason, words) => {
    expect(reasonInWords(reason)).toBe(words);
  });

  it('has words of its own for every reason without a number, none of them a sentence', () => {
    const codes = Object.keys(plainReasons) as PlainReason[];
    const words = codes.map((code) => reasonInWords({ code }));
    expect(new Set(words).size).toBe(codes.length);
    for (const each of words) expect(each).toMatch(/^\S.*[^.]$/);
  });

  it('says of a fault what it means for readings, and nothing of functions', () => {
    expect(faultInWords('too-few')).toBe('there are too few readings for it');
    expect(faultInWords('no-variation')).toBe('the readings do not vary enough for it');
  });
});

describe('dryingShapeInWords(kind)', () => {
  it('names the shape', () => {
    expect(dryingShapeInWords('two-stage')).toBe('constant rate, then falling rate');
  });
});
