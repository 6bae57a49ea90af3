import { describe, expect, it } from 'vitest';
import { checkTrial } from '../../src/records/read-trial.js';
import { readingsOfTrays } from '../../src/records/tables/readings-of-trays.js';
import { describeProblem } from '../../src/trial/index.js';
import { type FolderFiles, inFolder, validFolder } from '../helpers/valid-folder.js';

const header = 'date,wall,refill_ml,mass_kg,level_mm,water,reader,knew_arm\n';

/** The sound folder with trays, and the plan with what stands for them. */
function withTrays(rows: string | undefined, instruments: readonly object[], outcome: object = {}): FolderFiles {
  const folder = validFolder();
  const plan = JSON.parse(`${folder['protocol.json']}`);
  plan.instruments.push(...instruments);
  plan.outcome = { ...plan.outcome, ...outcome };
  const trays = rows === undefined ? {} : { 'trays.csv': `${header}${rows}` };
  return { ...folder, ...trays, 'protocol.json': JSON.stringify(plan) };
}
const tray = { instrument: 'tray', kind: 'direct', fromTrays: 'refill' };
const scale = { instrument: 'scale', kind: 'direct', fromTrays: 'mass' };

async function problemsOf(files: FolderFiles) {
  const check = await inFolder(files, checkTrial);
  return check.kind === 'problems' ? check.problems.map(describeProblem) : [];
}

describe('trays.csv', () => {
  it('is read row by row, and becomes readings of the instruments that stand for it: 700 ml in 7 days are 100 a day', async () => {
    const rows = '2024-03-12,w1,500,61.25,30,tap,Ada,no\n2024-03-19,w1,700,,,salt,,\n2024-03-20,w2,,60,0,,,\n';
    const check = await inFolder(withTrays(rows, [tray, scale]), checkTrial);
    if (check.kind !== 'trial') throw new Error(check.problems.map(describeProblem).join('\n'));
    const origin = (row: number) => ({ file: 'trays.csv', row });
    expect(check.trial.trays).toEqual([
      {
        ...{ date: '2024-03-12', wall: 'w1', refill_ml: 500, mass_kg: 61.25, level_mm: 30, water: 'tap' },
        ...{ reader: 'Ada', knewArm: 'no', origin: origin(2) },
      },
      { date: '2024-03-19', wall: 'w1', refill_ml: 700, water: 'salt', origin: origin(3) },
      { date: '2024-03-20', wall: 'w2', mass_kg: 60, level_mm: 0, origin: origin(4) },
    ]);
    const readings = check.trial.readings.filter(({ origin: { file } }) => file === 'trays.csv');
    expect(readings.map(({ instrument, date, wall, value }) => [instrument, date, wall, value])).toEqual([
      ['tray', '2024-03-19', 'w1', { kind: 'measured', value: 100 }],
      ['scale', '2024-03-12', 'w1', { kind: 'measured', value: 61.25 }],
      ['scale', '2024-03-20', 'w2', { kind: 'measured', value: 60 }],
    ]);
    expect(readings[1]).toMatchObject({ reader: 'Ada', knewArm: 'no', station: '' });
    const without = await inFolder(validFolder(), checkTrial);
    expect(without.kind === 'trial' && 'trays' in without.trial).toBe(false);
  });

  it('needs neither readings.csv nor cores.csv beside it', async () => {
    const folder = withTrays('2024-03-12,w1,500,,,,,\n', [tray], { instrument: 'tray', unit: 'ml/day' });
    const { 'readings.csv': _, 'cores.csv': __, ...alone } = folder;
    expect(await problemsOf(alone)).toEqual([]);
    const { 'trays.csv': ___, ...none } = alone;
    expect((await problemsOf(none)).join()).toContain('readings.csv');
  });

  it.each([
    ['2024-03-12,w9,500,,,,,', 'column wall'],
    ['2024-13-12,w1,500,,,,,', 'column date'],
    ['2024-03-12,w1,-1,,,,,', 'column refill_ml'],
    ['2024-03-12,w1,,0,,,,', 'column mass_kg'],
    ['2024-03-12,w1,,,-1,,,', 'column level_mm'],
    ['2024-03-12,w1,,,,sea,,', 'column water'],
    ['2024-03-12,w1,,,,,,perhaps', 'column knew_arm'],
    [
      '2024-03-12,w1,5,,,,,\n2024-03-12T18:00,w1,6,,,,,',
      'row 3, column date: found wall "w1" on 2024-03-12 again, after row 2',
    ],
  ])('refuses %s', async (row, place) => {
    const found = await problemsOf(withTrays(`${row}\n`, [tray]));
    expect(found).toHaveLength(1);
    expect(found[0]).toContain('trays.csv');
    expect(found[0]).toContain(place);
  });

  it.each([
    ['trays without an instrument', withTrays('2024-03-12,w1,5,,,,,\n', []), 'no instrument with fromTrays'],
    ['an instrument without trays', withTrays(undefined, [tray]), 'fromTrays without trays.csv'],
    [
      'two of one kind',
      withTrays('2024-03-12,w1,5,,,,,\n', [tray, { ...tray, instrument: 'other' }]),
      'the same fromTrays twice',
    ],
    [
      'another kind',
      withTrays('2024-03-12,w1,5,,,,,\n', [{ ...tray, kind: 'microwave' }]),
      'fromTrays with kind microwave',
    ],
    [
      'refills in another unit',
      withTrays('2024-03-12,w1,5,,,,,\n', [tray], { instrument: 'tray', unit: 'l/day' }),
      'l/day',
    ],
    ['masses in another unit', withTrays('2024-03-12,w1,5,,,,,\n', [scale], { instrument: 'scale', unit: 'g' }), 'kg'],
  ])('refuses %s', async (_, files, words) => {
    const found = await problemsOf(files);
    expect(found.join('\n')).toContain('protocol.json');
    expect(found.join('\n')).toContain(words);
  });
});

describe('readingsOfTrays(trays, instruments)', () => {
  it('counts the days since the wall’s own row before, in whatever order the rows stand, across a change of summer time', () => {
    const origin = { file: 'trays.csv', row: 2 };
    const trays = [
      { date: '2024-04-02T08:00', wall: 'A', refill_ml: 60, origin },
      { date: '2024-03-27T18:00', wall: 'A', refill_ml: 99, origin },
      { date: '2024-03-30', wall: 'B', refill_ml: 50, origin },
    ];
    const readings = readingsOfTrays(trays, [tray as { instrument: string; fromTrays: 'refill' }]);
    expect(readings.map(({ wall, value }) => [wall, value])).toEqual([['A', { kind: 'measured', value: 10 }]]);
  });
});
