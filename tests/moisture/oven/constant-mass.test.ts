import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { constantMass, type DryingRule, dryingRules } from '../../../src/moisture/index.js';

const iso = dryingRules['iso-12570'];
const loose = dryingRules['conservation-directory'];
const at = (...rows: [number, number][]) => ({ weighings: rows.map(([time_h, mass_g]) => ({ time_h, mass_g })) });
const drying = at([24, 51], [48, 48.2], [72, 48.17], [96, 48.16], [120, 48.15]);

describe('constantMass', () => {
  it('is reached at the third weighing in a row that agrees, worked by hand: changes −0.062 % and −0.021 %', () => {
    expect(constantMass(drying, iso)).toEqual({
      kind: 'reached',
      at_h: 96,
      dry_g: 48.16,
      largestChange_pct: expect.closeTo(0.0623, 4),
      // Losses of 0.03, 0.01 and, later, 0.01 g: these last two do not slow down.
      stillInIt: { kind: 'not-known', because: 'loss-not-slowing' },
    });
  });

  it('says what is still in a sample by geometric decay: 0.4, 0.2 and so 0.2 g to come, 0.4 % of 50 g, times 55/50 where it was wet', () => {
    const falling = at([0, 50.8], [4, 50.4], [8, 50.2]);
    const judged = constantMass(falling, loose);
    expect(judged).toMatchObject({ kind: 'reached', at_h: 8 });
    expect(judged).toMatchObject({ stillInIt: { moisture_pp: expect.closeTo((100 * 0.2) / 50.2, 8) } });
    expect(constantMass({ ...falling, wet_g: 1.1 * 50.2 }, loose)).toMatchObject({
      stillInIt: { moisture_pp: expect.closeTo((110 * 0.2) / 50.2, 8) },
    });
  });

  it('counts what later weighings lost beside what they leave to come: 0.2 + 0.1 + 0.1 g after 8 h', () => {
    // m = 50 + 0.8 · 2^(−t/4): the rule is met at 8 h, 50.2 g, and all of 0.2 g is still in it.
    const sample = at([0, 50.8], [4, 50.4], [8, 50.2], [12, 50.1], [16, 50.05]);
    expect(constantMass(sample, loose)).toMatchObject({
      at_h: 8,
      stillInIt: { moisture_pp: expect.closeTo((100 * 0.2) / 50.2, 8) },
    });
  });

  it('does not know what is still in it from two weighings', () => {
    expect(constantMass(at([0, 50.2], [4, 50]), loose)).toMatchObject({
      kind: 'reached',
      stillInIt: { kind: 'not-known', because: 'too-few-weighings' },
    });
  });

  it('calls a faster fall not reached by one rule and reached by the other, five times as loose', () => {
    const falling = at([24, 50], [48, 49.8], [72, 49.65]);
    expect(constantMass(falling, iso)).toMatchObject({ kind: 'not-reached', gaining: false });
    expect(constantMass(falling, loose)).toMatchObject({ kind: 'reached', at_h: 48 });
  });

  it('does not count weighings that follow too soon', () => {
    expect(constantMass(at([24, 50], [24.5, 50], [25, 50]), iso)).toEqual({
      kind: 'cannot-tell',
      reason: 'weighings-too-close',
      needed: 3,
    });
    expect(constantMass(at([24, 50]), iso)).toMatchObject({ reason: 'too-few-weighings' });
    // Between them, quick ones change nothing.
    expect(constantMass(at([24, 50], [25, 50], [48, 50], [49, 50], [72, 50]), iso)).toMatchObject({
      kind: 'reached',
      at_h: 72,
    });
  });

  it('is stricter about the mass of water: 0.04 g is 0.08 % of the sample and 2 % of the water', () => {
    const rule: DryingRule = { ...iso, of: 'water mass', weighings: 2 };
    const sample = { ...at([24, 50.04], [48, 50]), wet_g: 52 };
    expect(constantMass(sample, { ...iso, weighings: 2 })).toMatchObject({ kind: 'reached' });
    expect(constantMass(sample, rule)).toMatchObject({ kind: 'not-reached', lastChange_pct: expect.closeTo(-2, 10) });
    expect(() => constantMass(at([24, 50.04], [48, 50]), rule)).toThrow(/wet mass above/);
  });

  it('says so where the sample gets heavier', () => {
    expect(constantMass(at([24, 50], [48, 50.2], [72, 50.4]), iso)).toMatchObject({
      kind: 'not-reached',
      gaining: true,
    });
  });

  it('takes the container off: 0.04 g of 40 g net is 0.1 %, and of 10 g net four times that', () => {
    const rule = { ...iso, weighings: 2 };
    const boxed = at([24, 50.03], [48, 50]);
    expect(constantMass({ ...boxed, container_g: 10 }, rule)).toMatchObject({ kind: 'reached' });
    expect(constantMass({ ...boxed, container_g: 40 }, rule)).toMatchObject({ kind: 'not-reached' });
  });

  it('never leaves a rule that was met unmet when the tolerance is wider', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 49.5, max: 50.5, noNaN: true }), { minLength: 3, maxLength: 8 }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (masses, tolerance_pct) => {
          const sample = { weighings: masses.map((mass_g, index) => ({ time_h: 24 * index, mass_g })) };
          const narrow = constantMass(sample, { ...iso, tolerance_pct });
          const wide = constantMass(sample, { ...iso, tolerance_pct: 2 * tolerance_pct });
          if (narrow.kind === 'reached') expect(wide.kind === 'reached' && wide.at_h).toBeLessThanOrEqual(narrow.at_h);
        },
      ),
    );
  });

  it('refuses times that do not increase, and a sample that weighs nothing', () => {
    expect(() => constantMass(at([24, 50], [24, 50]), iso)).toThrow(/in order of time/);
    expect(() => constantMass({ ...at([24, 50]), container_g: 50 }, iso)).toThrow(/above the container/);
  });
});
