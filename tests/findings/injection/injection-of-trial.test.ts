import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Side, WallChange } from '../../../src/analysis/index.js';
import { injectionOfTrial } from '../../../src/findings/injection/injection-of-trial.js';
import type { Injection, Trial } from '../../../src/trial/index.js';
import { madeTrial, soundProtocol } from '../../helpers/made-trial.js';

interface Case {
  readonly name: string;
  readonly dose: readonly number[];
  readonly change: readonly number[];
  readonly level: number;
  readonly slope: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
  readonly lower: number;
  readonly upper: number;
}

const file = join(import.meta.dirname, '..', '..', 'reference', 'injection', 'injection.json');
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { readonly cases: readonly Case[] };

const origin = { file: 'injection.csv', row: 2 };

function injected(
  dose: readonly number[],
  change: readonly number[],
  level = 0.95,
  further: readonly Injection[] = [],
) {
  const names = dose.map((_, at) => `T${at + 1}`);
  const trial: Trial = {
    ...madeTrial(names.map((wall) => ({ wall, arm: 'treated' }))),
    protocol: { ...soundProtocol, confidence: level },
    injections: [
      ...names.map((wall, at): Injection => ({ date: '2024-06-10', wall, litres_per_m: dose[at] ?? 0, origin })),
      ...further,
    ],
  };
  const sides = new Map<string, Side>(names.map((wall) => [wall, 'treated']));
  const walls = names.map(
    (wall, at): WallChange => ({
      ...{ wall, arm: 'treated', side: 'treated', block: '', before: 8, stations: 1, places: 'same' },
      ...{ after: 8 + (change[at] ?? 0), change: change[at] ?? 0 },
    }),
  );
  return (areUnits = true) => injectionOfTrial(trial, sides, { walls, areUnits });
}

describe('injectionOfTrial', () => {
  it.each(cases)('the slope of change on dose is that of lm in R: $name', (one) => {
    const response = injected(one.dose, one.change, one.level)()?.response;
    if (response?.kind !== 'estimated') throw new Error(response?.reason.code);
    expect(response.estimate).toBeCloseTo(one.slope, 9);
    expect(response.standardError).toBeCloseTo(one.standardError, 9);
    expect(response.degreesOfFreedom).toBe(one.degreesOfFreedom);
    expect(response.pValue).toBeCloseTo(one.pValue, 9);
    expect(response.interval.lower).toBeCloseTo(one.lower, 8);
    expect(response.interval.upper).toBeCloseTo(one.upper, 8);
    expect(response.walls).toBe(one.dose.length);
  });

  it.each([
    ['two walls', injected([1, 2], [-1, -2])(), { code: 'too-few-doses', walls: 2, needed: 3 }],
    ['one dose', injected([1, 1, 1], [-1, -2, -1])(), { code: 'doses-alike' }],
    ['no scatter', injected([1, 2, 3], [-1, -1, -1])(), { code: 'doses-on-a-line' }],
    ['walls that count as one', injected([1, 2, 3], [-1, -2, -2])(false), { code: 'several-walls-as-one' }],
  ])('%s: no slope, and the reason', (_, found, reason) => {
    expect(found?.response).toMatchObject({ kind: 'not-estimated', reason });
  });

  it('the injections of a wall add up, by hand', () => {
    const second = { date: '2024-07-01', wall: 'T1', litres_per_m: 0.25, lot: 'B', moisture_pct: 9, origin };
    const found = injected([1, 2, 3], [-1, -2, -2], 0.95, [
      { ...second, plannedLitres_per_m: 1.5 },
      { ...second, litres_per_m: 0.1, lot: 'A', moisture_pct: 11 },
    ])();
    expect(found?.walls[0]).toEqual({
      ...{ wall: 'T1', side: 'treated', first: '2024-06-10', last: '2024-07-01', litres_per_m: 1.35 },
      ...{ plannedLitres_per_m: 1.5, lots: ['A', 'B'], moisture_pct: 10 },
    });
    expect(found?.leastShare).toBeCloseTo(0.9, 12);
    expect(found?.doses).toEqual({ least: 1.35, mean: (1.35 + 2 + 3) / 3, most: 3 });
    expect(found?.lots).toEqual(['A', 'B']);
  });

  it('nothing without injections of a treated wall', () => {
    expect(injected([], [])()).toBeUndefined();
  });
});
