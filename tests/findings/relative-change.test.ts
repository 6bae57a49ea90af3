import { describe, expect, it } from 'vitest';
import { comparisonDesign, primaryDifference, type WallChange } from '../../src/analysis/index.js';
import { relativeChange } from '../../src/findings/answer/relative-change.js';
import { relativeInBlocks } from '../../src/findings/answer/relative-in-blocks.js';
import { formOpinion } from '../../src/index.js';
import { numbersSection } from '../../src/report/sections/numbers-section.js';
import { opinionJson } from '../../src/report/writers/opinion-json.js';
import { blocksInWords } from '../helpers/core-trial.js';
import { expectRelative } from '../helpers/expect-relative.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../helpers/made-trial.js';
import reference from '../reference/relative-change/relative-change.json' with { type: 'json' };

type Side = 'treated' | 'untreated';
type Values = { readonly before: readonly number[]; readonly after: readonly number[] };
const options = { level: 0.95, unit: '% by mass' };

function wallsOf(side: Side, { before, after }: Values, block: (at: number) => string): WallChange[] {
  return before.map((value, at) => {
    const last = after[at] as number;
    return {
      ...{ wall: `${side} ${at}`, arm: side, side, block: block(at), before: value, after: last, change: last - value },
      ...{ stations: 1, places: 'same' as const },
    };
  });
}

function relativeOf(walls: readonly WallChange[], unit = '% by mass') {
  const { design } = comparisonDesign(walls);
  return relativeChange(design, primaryDifference(design, { ...options, unit }), { ...options, unit });
}

const complete = (untreated: Values) => [
  ...wallsOf('treated', reference.treated, () => ''),
  ...wallsOf('untreated', untreated, () => ''),
];
const five = { before: reference.untreated.before.slice(0, 5), after: reference.untreated.after.slice(0, 5) };

describe('relativeChange(design, primary)', () => {
  it.each([
    ['the treated walls', relativeOf(complete(reference.untreated))?.sides.treated, reference.ofTreated],
    ['the untreated walls', relativeOf(complete(reference.untreated))?.sides.untreated, reference.ofUntreated],
    ['the difference of unpaired walls', relativeOf(complete(five))?.difference, reference.complete],
    [
      'the difference inside pairs',
      relativeOf([
        ...wallsOf('treated', reference.treated, (at) => `b${at}`),
        ...wallsOf('untreated', reference.untreated, (at) => `b${at}`),
      ])?.difference,
      reference.pairs,
    ],
    [
      'the difference inside blocks of several walls, the blocks as given',
      relativeOf([
        ...wallsOf('treated', reference.treated, (at) => `b${reference.block[at]}`),
        ...wallsOf('untreated', reference.untreated, (at) => `b${reference.block[7 + at]}`),
      ])?.difference,
      reference.blocks,
    ],
  ])('gives R’s ratio and Fieller’s limits for %s', (_, found, expected) => {
    expectRelative(found?.estimate_pct, expected.estimate, 1e-12);
    expectRelative(found?.interval?.lower, expected.lower, 1e-9);
    expectRelative(found?.interval?.upper, expected.upper, 1e-9);
  });

  it('turns 14.48 to 2.90 % into −79.97 %, as published (Koca, Ugural and Yaman 2024, Buildings 14:1460, abstract)', () => {
    const treated = { before: [14.4, 14.56], after: [2.9, 2.9] };
    const found = relativeOf([...wallsOf('treated', treated, () => ''), ...wallsOf('untreated', five, () => '')]);
    expect(found?.sides.treated?.estimate_pct).toBeCloseTo(-79.97, 2);
    expect(found?.sides.treated?.walls).toBe(2);
  });

  it('does not depend on the unit of moisture by mass', () => {
    const scaled = complete(five).map((wall) => ({
      ...wall,
      before: (wall.before ?? 0) / 100,
      after: wall.after / 100,
      change: wall.change / 100,
    }));
    expectRelative(relativeOf(scaled, 'kg/kg')?.difference.interval?.lower, reference.complete.lower, 1e-9);
  });

  it('gives no limits where before cannot be distinguished from zero, nor where blocks leave nothing to judge chance by', () => {
    const dry = { before: [0.4, -0.3, 0.5, -0.2], after: [0.1, 0.2, -0.1, 0.3] };
    const vague = relativeOf([...wallsOf('treated', dry, () => ''), ...wallsOf('untreated', five, () => '')]);
    expect(vague?.sides.treated).not.toHaveProperty('interval');
    const wall = (isTreated: boolean) => ({ isTreated, change: isTreated ? -2 : 0, before: 8 });
    expect(relativeInBlocks([[wall(true), wall(false)]])).toBeUndefined();
    expect(relativeInBlocks([[wall(true), wall(false), wall(false)]])?.degreesOfFreedom).toBe(1);
  });

  it('says nothing of another unit, of after values alone, and of walls that held nothing', () => {
    expect(relativeOf(complete(five), 'index')).toBeUndefined();
    const afterAlone = complete(five).map(({ before: _, ...wall }) => wall);
    expect(relativeOf(afterAlone)).toBeUndefined();
    const none = { before: [0, 0, 0], after: [1, 2, 3] };
    expect(
      relativeOf([...wallsOf('treated', none, () => ''), ...wallsOf('untreated', five, () => '')]),
    ).toBeUndefined();
  });
});

describe('the relative change in an opinion', () => {
  const walls = wallsWithChanges([-2.2, -2.4, -2.6, -2.8], [-0.1, 0.1, -0.2, 0.2]);

  it('stands beside the percentage points in report and opinion.json: −2.5 of 8.375, worked by hand', () => {
    const opinion = formOpinion(madeTrial(walls));
    expect(opinion.relative?.difference.estimate_pct).toBeCloseTo(-29.851, 3);
    const json = JSON.parse(opinionJson(opinion));
    expect(json.relative).toMatchObject({ method: 'fieller', difference: { estimate: expect.closeTo(-29.851, 3) } });
    const { lower, upper } = opinion.relative?.difference.interval ?? { lower: Number.NaN, upper: Number.NaN };
    expect(json.relative.difference.interval.lower).toBeCloseTo(lower, 9);
    expect(json.relative.difference.interval.upper).toBeCloseTo(upper, 9);
    const words = blocksInWords(numbersSection(opinion).blocks);
    expect(words).toContain('Difference, of the treated walls’ before value');
  });

  it('is null where the outcome is an index', () => {
    const outcome = { instrument: 'mw', quantity: 'index', unit: 'index', better: 'lower' as const };
    const trial = madeTrial(walls, { protocol: { ...soundProtocol, outcome } });
    const readings = trial.readings.map((reading) => ({ ...reading, instrument: 'mw' }));
    const opinion = formOpinion({ ...trial, readings });
    expect(JSON.parse(opinionJson(opinion)).relative).toBeNull();
    expect(blocksInWords(numbersSection(opinion).blocks)).not.toContain('of their before value');
  });
});
