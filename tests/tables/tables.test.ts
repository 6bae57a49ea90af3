import { from } from 'arquero';
import fc from 'fast-check';
import papaparse from 'papaparse';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Opinion, type Row, rowsOfOpinion, rowsOfTrial, type Trial, tableCsv } from '../../src/index.js';
import { paired } from '../../src/statistics/index.js';
import { recordsOf, tablesOf } from '../../src/tables/arquero.js';
import { bundledOpinion, bundledTrial } from '../helpers/bundled-opinions.js';

/** The keys of the tables that a trial may lack. */
type OptionalTable = {
  [Key in keyof Trial]-?: undefined extends Trial[Key]
    ? NonNullable<Trial[Key]> extends readonly unknown[]
      ? Key
      : never
    : never;
}[keyof Trial];

let trial: Trial;
let opinion: Opinion;
let unpaired: Opinion;
beforeAll(async () => {
  trial = await bundledTrial('paired-garden-walls');
  opinion = await bundledOpinion('paired-garden-walls');
  unpaired = await bundledOpinion('treated-walls-only');
});

describe('rows', () => {
  it('of a trial are as many as were recorded, and have the same columns in every row of a table', () => {
    const rows = rowsOfTrial(trial);
    expect(
      [rows.walls, rows.readings, rows.cores, rows.air, rows.beliefs, rows.events].map(({ length }) => length),
    ).toEqual(
      [trial.walls, trial.readings, trial.cores, trial.climate, trial.beliefs, trial.events].map(
        ({ length }) => length,
      ),
    );
    for (const list of [...Object.values(rows), ...Object.values(rowsOfOpinion(opinion))]) {
      const columns = new Set(list.map((row: Row) => Object.keys(row).join()));
      expect(columns.size).toBeLessThanOrEqual(1);
    }
  });

  it('stand for every optional table of a trial', () => {
    const origin = { file: 'f.csv', row: 2 };
    const at = { date: '2024-07-01', wall: 'W01', origin };
    const measured = { kind: 'measured', value: 0.2 } as const;
    // The compiler asks for each optional table; the rows must follow.
    const tables: { readonly [Key in OptionalTable]: NonNullable<Trial[Key]> } = {
      batches: [{ batch: 'B1', oven_c: 105, origin }],
      salts: [
        {
          ...at,
          contents_pct: {
            chloride: measured,
            nitrate: { kind: 'below-detection', limit: 0.01 },
            sulfate: { kind: 'missing' },
          },
        },
      ],
      injections: [{ ...at, litres_per_m: 1.5 }],
      checks: [{ date: at.date, instrument: 'microwave', block: 'wet', value: measured, origin }],
      trays: [{ ...at, refill_ml: 520 }],
      electrical: [{ time: '2024-07-01T08:00', wall: 'W01', current_a: -0.035, state: 'on', origin }],
    };
    const rows = rowsOfTrial({ ...trial, ...tables });
    const names = Object.keys(tables) as OptionalTable[];
    expect(names.map((name) => [name, rows[name].length])).toEqual(
      names.map((name) => [name, name === 'salts' ? 3 : 1]),
    );
    expect(rows.electrical[0]).toMatchObject({ current_a: -0.035, voltage_v: null, state: 'on', row: 2 });
    expect(rows.trays[0]).toMatchObject({ wall: 'W01', refill_ml: 520, mass_kg: null });
    expect(rows.salts.map(({ ion, value, below_detection }) => [ion, value, below_detection])).toEqual([
      ['chloride', 0.2, null],
      ['nitrate', null, 0.01],
      ['sulfate', null, null],
    ]);
    const without = Object.fromEntries(Object.entries(trial).filter(([key]) => !(key in tables))) as unknown as Trial;
    expect(names.map((name) => rowsOfTrial(without)[name].length)).toEqual(names.map(() => 0));
  });

  it('hold cells that are text, finite numbers, yes or no, or null', () => {
    const cells = [rowsOfTrial(trial), rowsOfOpinion(opinion), rowsOfOpinion(unpaired)].flatMap((tables) =>
      Object.values(tables).flatMap((list: readonly Row[]) => list.flatMap((row) => Object.values(row))),
    );
    const odd = cells.filter(
      (cell) => cell !== null && typeof cell !== 'string' && typeof cell !== 'boolean' && !Number.isFinite(cell),
    );
    expect(odd).toEqual([]);
  });

  it('of the walls give the primary answer again by Student’s interval of the pairs', () => {
    const rows = rowsOfOpinion(opinion);
    const changeOf = (block: unknown, side: string) =>
      Number(rows.wall_changes.find((row) => row.block === block && row.side === side)?.change);
    const blocks = [...new Set(rows.wall_changes.map(({ block }) => block))];
    const again = paired(blocks.map((block) => changeOf(block, 'treated') - changeOf(block, 'untreated')));
    const [primary] = rows.estimates;
    expect(primary?.id).toBe('wall-change');
    expect(primary?.estimate).toBeCloseTo(again.estimate, 12);
    expect(primary?.lower).toBeCloseTo(again.interval.lower, 10);
  });

  it('of heights give each arm’s means from the foot up, as the report shows them', () => {
    const { height_means: rows } = rowsOfOpinion(opinion);
    expect(rows.length).toBe(opinion.heights.reduce((sum, { means }) => sum + means.length, 0));
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) expect(row.change).toBeCloseTo(Number(row.after) - Number(row.before), 12);
  });

  it('say why an estimate was not made', () => {
    const [primary] = rowsOfOpinion(unpaired).estimates;
    expect(primary).toMatchObject({ id: 'wall-change', estimate: null, lower: null });
    expect(primary?.why_not).toMatch(/\w/);
  });
});

describe('tables of arquero', () => {
  it('are the same rows', () => {
    expect(tablesOf(opinion).wall_changes.objects()).toEqual(rowsOfOpinion(opinion).wall_changes);
    expect(tablesOf(trial).walls.numRows()).toBe(24);
  });

  it('and records are taken alike', () => {
    const rows = [{ wall: 'W01', change: -1 }];
    expect(recordsOf(from(rows))).toEqual(rows);
    expect(recordsOf(rows)).toBe(rows);
  });
});

describe('a table as CSV', () => {
  it('comes back as it was by an independent reader, but for what a spreadsheet would run', () => {
    const cell = fc.oneof(
      fc.string(),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.constant(null),
      fc.boolean(),
    );
    fc.assert(
      fc.property(fc.array(fc.record({ a: cell, b: cell }), { minLength: 1 }), (rows) => {
        const { data } = papaparse.parse<Record<string, string>>(tableCsv(rows), { header: true, newline: '\n' });
        const text = (value: unknown) => {
          const plain = value === null ? '' : `${value}`;
          return typeof value === 'string' && /^[=+\-@\t\r\n]/.test(plain) ? `'${plain}` : plain;
        };
        expect(data.slice(0, rows.length)).toEqual(rows.map(({ a, b }) => ({ a: text(a), b: text(b) })));
      }),
    );
  });

  it('starts no formula, and keeps negative numbers', () => {
    expect(
      tableCsv([
        { note: '=1+1', change: -1.5 },
        { note: '-x', change: null },
      ]),
    ).toBe("note,change\n'=1+1,-1.5\n'-x,\n");
    expect(tableCsv([])).toBe('');
  });
});
