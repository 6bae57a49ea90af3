import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import readWorkbook from 'read-excel-file/node';
import { afterAll, describe, expect, it } from 'vitest';
import writeWorkbook, { type Cell } from 'write-excel-file/node';
import { fairwall } from '../helpers/command-in-process.js';
import { isWholeSweep } from '../helpers/sweep.js';

const scratch = mkdtempSync(join(tmpdir(), 'fairwall-new-user-'));
const mine = join(scratch, 'mine');

afterAll(() => rmSync(scratch, { recursive: true, force: true }));

type Rows = Cell[][];

/** A workbook as somebody has it open: sheets by name, to be changed cell by cell and saved. */
async function opened(path: string): Promise<Map<string, Rows>> {
  const sheets = await readWorkbook(readFileSync(path));
  return new Map(sheets.map(({ sheet, data }) => [sheet, data.map((row) => [...row] as Cell[])]));
}

async function saved(path: string, sheets: ReadonlyMap<string, Rows>): Promise<void> {
  const data = [...sheets].map(([sheet, rows]) => ({
    sheet,
    data: rows.map((row) =>
      row.map((cell) => (cell instanceof Date ? { value: cell, type: Date, format: 'dd.mm.yyyy' } : cell)),
    ),
  }));
  writeFileSync(path, await writeWorkbook(data).toBuffer());
}

function answer(rows: Rows, answers: Readonly<Record<string, Cell>>): void {
  for (const [key, value] of Object.entries(answers)) {
    const row = rows.find(([name]) => name === key);
    expect(row, key).toBeDefined();
    if (row !== undefined) row[1] = value;
  }
}

/** Rows below the heading, each a record by heading. */
function fill(rows: Rows, records: readonly Readonly<Record<string, Cell>>[]): void {
  const [header = []] = rows;
  rows.splice(
    1,
    rows.length,
    ...records.map((record) => {
      for (const heading of Object.keys(record)) expect(header).toContain(heading);
      return header.map((heading) => record[String(heading)] ?? null);
    }),
  );
}

const day = (text: string) => new Date(`${text}T00:00:00Z`);
const visits = ['2024-03-12', '2024-04-16', '2024-05-14', '2025-03-11', '2025-04-15', '2025-05-13'];

/** Eight treated and eight untreated walls; the treatment takes three per cent off, with errors that come round every seven cores. */
function fillIn(sheets: ReadonlyMap<string, Rows>): void {
  const sheet = (name: string) => sheets.get(name) ?? [];
  answer(sheet('plan'), {
    title: 'Sixteen cellar walls',
    claim: 'The cream lowers the moisture by two per cent within a year',
    plannedOn: day('2024-02-01'),
    margin: 2,
    'allocation.method': 'randomised',
    'allocation.by': 'a person outside the trial',
    selection: 'not-by-moisture',
    'windows.before.from': day('2024-03-01'),
    'windows.before.to': day('2024-05-31'),
    'windows.after.from': day('2025-03-01'),
    'windows.after.to': day('2025-05-31'),
    'blinding.readers': 'yes',
    'disclosures.funding': 'the owners',
    'disclosures.interests': 'none',
    'instruments.1.resolution_g': 0.01,
  });
  const walls = sheet('walls')
    .slice(1)
    .flatMap(([wall]) => (typeof wall === 'string' ? [wall] : []));
  const places = sheet('stations')
    .slice(1)
    .map(([station, wall]) => ({ station, wall: String(wall) }));
  const isTreated = (wall: string) => walls.indexOf(wall) % 2 === 0;
  fill(
    sheet('walls'),
    walls.map((wall) => ({
      ...{ wall, arm: isTreated(wall) ? 'treated' : 'control', site: 'cellar', material: 'brick', thickness_mm: 365 },
      ...(isTreated(wall) ? { treated_on: day('2024-06-10') } : {}),
    })),
  );
  let count = 0;
  fill(
    sheet('cores'),
    visits.flatMap((date, visit) =>
      places.map(({ station, wall }) => {
        const error = ((++count * 3) % 7) / 10 - 0.3;
        const moisture = 9 + (walls.indexOf(wall) % 5) / 5 + error - (visit > 2 && isTreated(wall) ? 3 : 0);
        return {
          ...{
            date: day(date),
            wall,
            station: station ?? null,
            sample: `C${count}`,
            container_g: 12,
            dry_g: 52,
            batch: 'B1',
          },
          ...{ wet_g: Number((52 + 0.4 * moisture).toFixed(2)), reader: 'R1', knew_arm: 'no' },
        };
      }),
    ),
  );
  fill(sheet('batches'), [{ batch: 'B1', oven_c: 105, stop_rule: 'under 0.1 % in 24 h', last_change_pct: 0.05 }]);
}

describe('a new user', () => {
  const workbook = join(mine, 'trial.xlsx');

  it('gets forms, and a second time is told that they are there', async () => {
    const made = await fairwall('new', mine, '--walls', '16', '--heights', '200,900');
    expect(made).toMatchObject({ status: 0, stderr: '' });
    const before = readFileSync(workbook);
    const again = await fairwall('new', mine);
    expect(again).toMatchObject({ status: 2, stdout: '' });
    expect(again.stderr.startsWith(`fairwall: ${mine} holds `)).toBe(true);
    expect(readFileSync(workbook).equals(before)).toBe(true);
    expect(readdirSync(scratch)).toEqual(['mine']);
  });

  it('is told what to fill in, once for each cause', async () => {
    const { status, stderr } = await fairwall('check', mine);
    expect(status).toBe(2);
    expect(stderr).toMatch(/plan.*title/);
    expect(stderr).toMatch(/plan.*allocation/);
    expect(stderr).toMatch(/walls.*column arm: found .* in 16 rows/);
    expect(stderr.trimEnd().split('\n').length).toBeLessThan(12);
  });

  it('fills the workbook in, has it checked without an outcome by arm, and gets the opinion', async () => {
    const sheets = await opened(workbook);
    fillIn(sheets);
    await saved(workbook, sheets);
    const check = await fairwall('check', mine, '--out', join(scratch, 'checked'));
    expect(check).toMatchObject({ status: 0, stderr: '' });
    expect(check.stdout).toMatch(/Everything in the folder that a trial can hold was used/);
    expect(readFileSync(join(scratch, 'checked', 'check.html'), 'utf8')).toMatch(/What was not used[\s\S]*<svg/);
    expect(await fairwall('opinion', mine, '--out', join(scratch, 'opinion'))).toMatchObject({ status: 0 });
    const { verdict, primary } = JSON.parse(readFileSync(join(scratch, 'opinion', 'opinion.json'), 'utf8'));
    expect(verdict.code).toBe('worthwhile');
    expect(primary.estimate).toBeCloseTo(-3, 0);
  }, 60_000);

  it.runIf(isWholeSweep)(
    'may judge the example as it is, with the verdict of the bundled trial that it shows',
    async () => {
      const example = join(mine, 'example');
      expect(await fairwall('opinion', example, '--out', join(scratch, 'example'))).toMatchObject({ status: 0 });
      const code = (path: string) => JSON.parse(readFileSync(path, 'utf8')).verdict;
      expect(code(join(scratch, 'example', 'opinion.json')).code).toBe('worthwhile');
      expect(code(join(scratch, 'example', 'opinion.json')).evidence).toBe('firm');
      expect(await fairwall('check', example)).toMatchObject({ status: 0 });
    },
    60_000,
  );
});
