import { describe, expect, it } from 'vitest';
import { checkTrial } from '../../src/records/read-trial.js';
import { describeProblem } from '../../src/trial/index.js';
import { inFolder, validFolder } from '../helpers/valid-folder.js';

const header = 'date,instrument,block,value,reader\n';

describe('checks.csv', () => {
  it('is read row by row, and a folder without it has none', async () => {
    const rows = `${header}2024-03-12,mw,B1,41.5,Ada\n2024-05-14,mw,B1,<5,\n`;
    const check = await inFolder({ ...validFolder(), 'checks.csv': rows }, checkTrial);
    if (check.kind !== 'trial') throw new Error('the folder was refused');
    expect(check.trial.checks).toEqual([
      {
        date: '2024-03-12',
        instrument: 'mw',
        block: 'B1',
        value: { kind: 'measured', value: 41.5 },
        reader: 'Ada',
        origin: { file: 'checks.csv', row: 2 },
      },
      {
        date: '2024-05-14',
        instrument: 'mw',
        block: 'B1',
        value: { kind: 'below-detection', limit: 5 },
        origin: { file: 'checks.csv', row: 3 },
      },
    ]);
    const without = await inFolder(validFolder(), checkTrial);
    expect(without.kind === 'trial' && 'checks' in without.trial).toBe(false);
  });

  it('names instruments that the protocol does not, blocks without a name, and dates that are none', async () => {
    const rows = `${header}2024-13-12,mw,B1,41.5,\n2024-03-12,mv,B1,41,\n2024-03-12,mw,,40,\n`;
    const check = await inFolder({ ...validFolder(), 'checks.csv': rows }, checkTrial);
    const found = check.kind === 'problems' ? check.problems.map(describeProblem) : [];
    expect(found).toHaveLength(3);
    expect(found[0]).toMatch(/^checks\.csv, row 2, column date: /);
    expect(found[1]).toMatch(/^checks\.csv, row 3, column instrument: .*an instrument of protocol\.json/);
    expect(found[2]).toMatch(/^checks\.csv, row 4, column block: .*the name of a check block/);
  });
});
