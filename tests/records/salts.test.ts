import { describe, expect, it } from 'vitest';
import { checkTrial } from '../../src/records/read-trial.js';
import { describeProblem } from '../../src/trial/index.js';
import { inFolder, validFolder } from '../helpers/valid-folder.js';

const header = 'date,wall,height_mm,depth_mm,chloride_pct,nitrate_pct,sulfate_pct,scheme\n';

async function readSalts(rows: string) {
  return inFolder({ ...validFolder(), 'salts.csv': rows }, checkTrial);
}

async function problemsOf(...rows: readonly string[]): Promise<readonly string[]> {
  const check = await readSalts(`${header}${rows.map((row) => `${row}\n`).join('')}`);
  return check.kind === 'problems' ? check.problems.map(describeProblem) : [];
}

describe('salts.csv', () => {
  it('is read row by row, values below detection as such, and a folder without it has none', async () => {
    const check = await readSalts(
      `${header}2024-03-12,w1,300,20,0.31,<0.01,,wta-2-6-99\n2024-03-12T09:00,w2,,,,0,0.4,\n`,
    );
    if (check.kind !== 'trial') throw new Error(check.problems.map(describeProblem).join('; '));
    expect(check.trial.salts).toEqual([
      {
        date: '2024-03-12',
        wall: 'w1',
        height_mm: 300,
        depth_mm: 20,
        contents_pct: {
          chloride: { kind: 'measured', value: 0.31 },
          nitrate: { kind: 'below-detection', limit: 0.01 },
          sulfate: { kind: 'missing' },
        },
        scheme: 'wta-2-6-99',
        origin: { file: 'salts.csv', row: 2 },
      },
      {
        date: '2024-03-12T09:00',
        wall: 'w2',
        contents_pct: {
          chloride: { kind: 'missing' },
          nitrate: { kind: 'measured', value: 0 },
          sulfate: { kind: 'measured', value: 0.4 },
        },
        origin: { file: 'salts.csv', row: 3 },
      },
    ]);
    const without = await inFolder(validFolder(), checkTrial);
    expect(without.kind === 'trial' && 'salts' in without.trial).toBe(false);
  });

  it('takes semicolons and decimal commas', async () => {
    const check = await readSalts('date;wall;chloride_pct\n2024-03-12;w1;0,31\n2024-03-12;w2;<0,01\n');
    expect(check.kind === 'trial' && check.trial.salts?.map(({ contents_pct }) => contents_pct.chloride)).toEqual([
      { kind: 'measured', value: 0.31 },
      { kind: 'below-detection', limit: 0.01 },
    ]);
  });

  it('accepts contents and depths at their ends', async () => {
    expect(await problemsOf('2024-03-12,w1,-200,0,0,0,100,')).toEqual([]);
  });

  it.each([
    ['2024-03-32,w1,300,20,0.3,,,', /row 2, column date: /],
    ['2024-03-12,w9,300,20,0.3,,,', /row 2, column wall: .*a wall of walls\.csv/],
    ['2024-03-12,,300,20,0.3,,,', /row 2, column wall: found nothing/],
    ['2024-03-12,w1,foot,20,0.3,,,', /row 2, column height_mm: .*a height in mm/],
    ['2024-03-12,w1,300,-1,0.3,,,', /row 2, column depth_mm: .*a depth in mm of 0 or more/],
    ['2024-03-12,w1,300,20,2000,,,', /row 2, column chloride_pct: .*2000 mg\/kg is 0\.2/],
    ['2024-03-12,w1,300,20,,-0.1,,', /row 2, column nitrate_pct: .*from 0 to 100/],
    ['2024-03-12,w1,300,20,,,<0,', /row 2, column sulfate_pct: .*a detection limit above 0/],
    ['2024-03-12,w1,300,20,0.3 %,,,', /row 2, column chloride_pct: .*without a unit/],
    ['2024-03-12,w1,300,20,60,30,10.1,', /row 2, column chloride_pct: found 100\.1 % of salts together/],
    ['2024-03-12,w1,300,20,,,,', /row 2, column chloride_pct: found nothing in all three ions/],
    ['2024-03-12,w1,300,20,0.3,,,wta-2-6', /row 2, column scheme: .*did you mean "wta-2-6-99"/],
  ])('refuses %s', async (row, problem) => {
    const found = await problemsOf(row);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(problem);
  });

  it('refuses the same sample twice, and takes two alike of other places', async () => {
    const row = '2024-03-12,w1,300,20,0.3,,,';
    const [found, ...others] = await problemsOf(row, '2024-03-12,w1,300,40,0.3,,,', row);
    expect(found).toMatch(/row 4, column wall: found the same sample as in row 2/);
    expect(others).toEqual([]);
  });
});
