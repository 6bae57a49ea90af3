import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import type { Answer } from '../../src/analysis/index.js';
import { estimateInWords, labelOf, reasonInWords } from '../../src/labels/index.js';
import type { Opinion } from '../../src/opinion/index.js';
import { opinionJson } from '../../src/report/writers/opinion-json.js';
import { averagedContrast, stepDesign } from '../../src/statistics/index.js';
import { bundledOpinion, bundledTrials } from '../helpers/bundled-opinions.js';

const validate = new Ajv2020({ allErrors: true, allowUnionTypes: true }).compile(
  JSON.parse(readFileSync('datasets/opinion.schema.json', 'utf8')),
);

interface WallRow {
  readonly wall: string;
  readonly side: 'treated' | 'untreated';
  readonly block: string | null;
  readonly counts_as: string | null;
  readonly change: number;
}

interface OpinionFile {
  readonly primary: { readonly method: string | null; readonly estimate: number | null };
  readonly walls: readonly WallRow[];
  readonly armMeans: readonly unknown[];
  readonly heights: readonly { readonly arm: string; readonly height_mm: number; readonly change: number }[];
  readonly changes: {
    readonly marginAt: number | null;
    readonly arms: readonly { readonly arm: string; readonly mean: number; readonly walls: readonly string[] }[];
  };
  readonly agreement: { readonly others: number; readonly apart: readonly unknown[] } | null;
  readonly charts: readonly { readonly layers: readonly (readonly unknown[])[] }[];
  readonly series?: { readonly visits: readonly { day: string; window: 'before' | 'after'; difference: number }[] };
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Walls of one unit as their mean, as `datasets/opinion-json.md` says. */
function unitsOf(walls: readonly WallRow[]): readonly WallRow[] {
  const byUnit = new Map<string, WallRow[]>();
  for (const wall of walls) {
    const unit = wall.counts_as ?? wall.wall;
    byUnit.set(unit, [...(byUnit.get(unit) ?? []), wall]);
  }
  return [...byUnit.values()].flatMap(([first, ...more]) =>
    first === undefined ? [] : [{ ...first, change: mean([first, ...more].map(({ change }) => change)) }],
  );
}

/** The primary estimate from the file alone, by the book and without our analysis; nothing where a side has no wall. */
function primaryAgain({ primary, walls, series }: OpinionFile): number | null {
  const units = unitsOf(walls);
  const on = (side: WallRow['side'], rows = units) =>
    rows.filter((wall) => wall.side === side).map(({ change }) => change);
  const differenceIn = (rows: readonly WallRow[]) => mean(on('treated', rows)) - mean(on('untreated', rows));
  switch (primary.method) {
    case 'paired-blocks':
    case 'block-model': {
      const blocks = [...new Set(units.map(({ block }) => block))].map((block) =>
        units.filter((wall) => wall.block === block),
      );
      const weights = blocks.map(
        (rows) => (on('treated', rows).length * on('untreated', rows).length) / Math.max(1, rows.length),
      );
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      return blocks.reduce((sum, rows, at) => sum + (weights[at] ? weights[at] * differenceIn(rows) : 0), 0) / total;
    }
    case 'paired-series': {
      const visits = series?.visits ?? [];
      const design = stepDesign(visits.map(({ window }) => (window === 'after' ? 1 : 0)));
      const times = visits.map(({ day }) => Date.parse(day) / 86_400_000);
      const response = visits.map(({ difference }) => difference);
      return averagedContrast({ design, response, times }, { step: 1 }).estimate;
    }
    default:
      return on('treated').length === 0 || on('untreated').length === 0 ? null : differenceIn(units);
  }
}

function answersOf({ primary, analyses, effectSizes, judging, drying }: Opinion): readonly Answer[] {
  return [
    ...(primary.kind === 'estimated' ? [{ kind: 'estimated', estimate: primary.estimate } as const] : []),
    ...[...analyses, ...effectSizes, ...(judging?.choices ?? []), ...(judging?.nothing ?? [])],
    ...(judging?.secondary ?? []).map(({ answer }) => answer),
    ...(drying?.kind === 'shown' ? [...drying.answers, ...drying.adjusted] : []),
  ];
}

describe.each(bundledTrials)('opinion.json of %s', (name) => {
  it('is valid, gives the primary answer again, and has words for every analysis', { timeout: 120_000 }, async () => {
    const opinion = await bundledOpinion(name);
    const file: OpinionFile = JSON.parse(opinionJson(opinion));

    expect(validate(file) ? [] : validate.errors).toEqual([]);
    expect(file.walls.length).toBe(opinion.walls.length);
    expect(file.charts.length).toBeGreaterThan(0);
    expect(file.charts.every(({ layers }) => layers.length > 0)).toBe(true);

    // What the report shows of arms, heights and agreement, from the file alone.
    expect(file.changes.arms.flatMap(({ walls }) => walls).toSorted()).toEqual(
      file.walls.map(({ wall }) => wall).toSorted(),
    );
    for (const { mean: stated, walls } of file.changes.arms) {
      const own = unitsOf(file.walls.filter(({ wall }) => walls.includes(wall)));
      expect(stated).toBeCloseTo(mean(own.map(({ change }) => change)), 9);
    }
    const shown = opinion.heights.flatMap(({ arm, means }) => means.map(({ height_mm }) => [arm, height_mm]));
    expect(file.heights.map(({ arm, height_mm }) => [arm, height_mm])).toEqual(shown);
    expect(file.agreement === null).toBe(opinion.primary.kind !== 'estimated');

    const again = primaryAgain(file);
    if (again === null) expect(file.primary.estimate).toBeNull();
    else expect(file.primary.estimate).toBeCloseTo(again, 10);

    for (const answer of answersOf(opinion)) {
      const named = answer.kind === 'estimated' ? answer.estimate : answer.notEstimated;
      expect(labelOf(named)).not.toBe(named.id);
      if (answer.kind === 'not-estimated') expect(reasonInWords(answer.notEstimated.reason)).toMatch(/^[^.]{10,}/);
      else {
        const words = estimateInWords(answer.estimate);
        expect(words.assumptions.length).toBeGreaterThan(0);
        expect(words.method.length).toBeGreaterThan(15);
        expect(JSON.stringify(words)).not.toMatch(/undefined|NaN|\?|\[object/);
      }
    }

    const { walls: _, ...without } = file;
    expect(validate(without)).toBe(false);
    expect(validate({ ...file, changes: { ...file.changes, marginAt: 'far' } })).toBe(false);
    expect(validate({ ...file, heights: [{ arm: 'box' }] })).toBe(false);
    expect(validate({ ...file, agreement: { others: 3 } })).toBe(false);
    expect(validate({ ...file, walls: [{ ...file.walls[0], change: 'much' }] })).toBe(false);
    expect(validate({ ...file, primary: { ...file.primary, method: 'by-eye' } })).toBe(false);
  });
});
