import { describe, expect, it } from 'vitest';
import { checkTrial } from '../../src/records/read-trial.js';
import { describeProblem } from '../../src/trial/index.js';
import { inFolder, validFolder } from '../helpers/valid-folder.js';

const header = 'time,wall,electrode,voltage_v,current_a,polarity,state\n';

const read = (rows: readonly string[]) =>
  inFolder({ ...validFolder(), 'electrical.csv': `${header}${rows.join('\n')}\n` }, checkTrial);

async function problemsOf(...rows: readonly string[]): Promise<readonly string[]> {
  const check = await read(rows);
  return check.kind === 'problems' ? check.problems.map(describeProblem) : [];
}

describe('electrical.csv', () => {
  it('is read row by row, on unless it says off, and a folder without it has none', async () => {
    const check = await read([
      '2024-06-03T10:00,w1,anode 1,24,0.035,anode-in-wall,',
      '2024-07-01,w1,anode 1,,,,off',
      '2024-07-08,w2,,NA,-0.001,,on',
    ]);
    if (check.kind !== 'trial') throw new Error(check.problems.map(describeProblem).join('; '));
    const origin = (row: number) => ({ file: 'electrical.csv', row });
    expect(check.trial.electrical).toEqual([
      {
        ...{ time: '2024-06-03T10:00', wall: 'w1', electrode: 'anode 1', voltage_v: 24, current_a: 0.035 },
        ...{ polarity: 'anode-in-wall', state: 'on', origin: origin(2) },
      },
      { time: '2024-07-01', wall: 'w1', electrode: 'anode 1', state: 'off', origin: origin(3) },
      { time: '2024-07-08', wall: 'w2', current_a: -0.001, state: 'on', origin: origin(4) },
    ]);
    const without = await inFolder(validFolder(), checkTrial);
    expect(without.kind === 'trial' && 'electrical' in without.trial).toBe(false);
  });

  it.each([
    ['a wall that there is not', '2024-06-03,w9,,24,0.03,,', /row 2, column wall: found "w9"/],
    ['a day that there is not', '2024-06-31,w1,,24,0.03,,', /row 2, column time: /],
    ['milliamperes', '2024-06-03,w1,,24,35,,', /row 2, column current_a: found "35", expected .*35 mA is 0\.035/],
    ['millivolts', '2024-06-03,w1,,2400,0.03,,', /row 2, column voltage_v: found "2400", expected .*2400 mV is 2\.4/],
    ['a polarity of another name', '2024-06-03,w1,,24,0.03,anode,', /row 2, column polarity: found "anode"/],
    ['another state', '2024-06-03,w1,,24,0.03,,paused', /row 2, column state: found "paused", expected on or off/],
    ['a current while off', '2024-06-03,w1,,0,0.03,,off', /row 2, column current_a: .*where the state is off/],
    ['nothing while on', '2024-06-03,w1,,,,,', /row 2, column current_a: found neither voltage_v nor current_a/],
  ])('refuses %s, naming its row and column', async (_, row, words) => {
    const found = await problemsOf(row);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(words);
  });

  it('takes the ends of what is accepted, and an off row with a current of 0', async () => {
    const rows = ['2024-06-03,w1,,1000,20,,', '2024-06-04,w1,,-1000,-20,,', '2024-06-05,w1,,0,0,,off'];
    expect((await read(rows)).kind).toBe('trial');
    expect(await problemsOf('2024-06-03,w1,,1000.1,20.1,,')).toHaveLength(2);
  });

  it('refuses the same wall, electrode and time twice', async () => {
    const row = '2024-06-03,w1,anode,24,0.03,,';
    const found = await problemsOf(row, '2024-06-03,w1,other,24,0.03,,', row);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/row 4, column time: .*again, after row 2/);
  });

  it.each([
    ['a day and its noon', '2024-06-03', '2024-06-03T12:00'],
    ['seconds of nothing', '2024-06-03T10:00', '2024-06-03T10:00:00'],
    ['two zones', '2024-06-03T10:00Z', '2024-06-03T11:00+01:00'],
  ])('refuses one instant written in two ways: %s', async (_, one, other) => {
    const found = await problemsOf(`${one},w1,anode,24,0.03,,`, `${other},w1,anode,24,0.02,,`);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/row 3, column time: .*again, after row 2/);
  });

  it('tells two dates that are none by their text', async () => {
    const found = await problemsOf('2024-06-31,w1,,24,0.03,,', '2024-06-32,w1,,24,0.03,,');
    expect(found.filter((one) => one.includes('again'))).toEqual([]);
    expect(found).toHaveLength(2);
  });
});
