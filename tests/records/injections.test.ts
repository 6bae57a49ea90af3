import { describe, expect, it } from 'vitest';
import { checkTrial } from '../../src/records/read-trial.js';
import { describeProblem } from '../../src/trial/index.js';
import { inFolder, validFolder } from '../helpers/valid-folder.js';

const header = 'date,wall,lot,litres_per_m,planned_litres_per_m,spacing_mm,depth_mm,moisture_pct\n';
const checked = (text: string, file = 'injection.csv') => inFolder({ ...validFolder(), [file]: text }, checkTrial);

describe('injection.csv', () => {
  it('is read row by row, and a folder without it has none', async () => {
    const check = await checked(`${header}2024-06-03,w1,L1,1.5,1.6,120,190,8.4\n2024-06-04,w3,,0.5,,,,\n`);
    if (check.kind !== 'trial') throw new Error(check.problems.map(describeProblem).join('; '));
    expect(check.trial.injections).toEqual([
      {
        ...{ date: '2024-06-03', wall: 'w1', lot: 'L1', litres_per_m: 1.5, plannedLitres_per_m: 1.6 },
        ...{ spacing_mm: 120, depth_mm: 190, moisture_pct: 8.4, origin: { file: 'injection.csv', row: 2 } },
      },
      { date: '2024-06-04', wall: 'w3', litres_per_m: 0.5, origin: { file: 'injection.csv', row: 3 } },
    ]);
    const without = await inFolder(validFolder(), checkTrial);
    expect(without.kind === 'trial' && 'injections' in without.trial).toBe(false);
  });

  it.each([
    ['no day', ',w1,L1,1.5,,,,', 'column date'],
    ['a day that is none', '2024-06-31,w1,L1,1.5,,,,', 'column date: found "2024-06-31"'],
    ['a wall that is not there', '2024-06-03,w9,L1,1.5,,,,', 'column wall: found "w9"'],
    ['no dose', '2024-06-03,w1,L1,,,,,', 'column litres_per_m'],
    ['a dose of nothing', '2024-06-03,w1,L1,0,,,,', 'column litres_per_m: found "0"'],
    ['millilitres', '2024-06-03,w1,L1,1500,,,,', 'column litres_per_m: found "1500"'],
    ['a planned dose below zero', '2024-06-03,w1,L1,1.5,-1,,,', 'column planned_litres_per_m: found "-1"'],
    ['spacing in centimetres below 1', '2024-06-03,w1,L1,1.5,,9,,', 'column spacing_mm: found "9"'],
    ['holes deeper than walls', '2024-06-03,w1,L1,1.5,,,5001,', 'column depth_mm: found "5001"'],
    ['moisture over 100 %', '2024-06-03,w1,L1,1.5,,,,101', 'column moisture_pct: found "101"'],
  ])('%s is refused', async (_, row, expected) => {
    const check = await checked(`${header}${row}\n`);
    const found = check.kind === 'problems' ? check.problems.map(describeProblem) : [];
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/^injection\.csv, row 2, /);
    expect(found[0]).toContain(expected);
  });

  it.each([
    ['100', '10', '10', '0'],
    ['0.01', '2000', '5000', '100'],
  ])('%s litres, %s and %s mm, %s %% are taken', async (litres, spacing, depth, moisture) => {
    const check = await checked(`${header}2024-06-03,w1,L1,${litres},,${spacing},${depth},${moisture}\n`);
    expect(check.kind).toBe('trial');
  });

  it('without the column of doses is refused', async () => {
    const check = await checked('date,wall\n2024-06-03,w1\n');
    expect(check.kind === 'problems' && check.problems.map(describeProblem).join()).toContain('litres_per_m');
  });
});

describe('plaster in the diary', () => {
  it('is stripped or renewed', async () => {
    const check = await checked(
      'date,wall,kind,note\n2024-06-03,w1,plaster-stripped,\n2024-09-03,w1,replastered,\n',
      'diary.csv',
    );
    expect(check.kind === 'trial' && check.trial.events.map(({ kind }) => kind)).toEqual([
      'plaster-stripped',
      'replastered',
    ]);
  });
});
