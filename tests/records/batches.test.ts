import { describe, expect, it } from 'vitest';
import { moistureReadings } from '../../src/moisture/index.js';
import { checkTrial } from '../../src/records/read-trial.js';
import { describeProblem } from '../../src/trial/index.js';
import { type FolderFiles, inFolder, validFolder } from '../helpers/valid-folder.js';

const header = 'batch,oven_c,stop_rule,last_change_pct,humidity_pct,humid_temperature_c,note\n';
const twoChanges = 'batch,oven_c,change_before_pct,last_change_pct\n';
const cores = (batch: string) =>
  `date,wall,wet_g,dry_g,humid_g,batch\n2024-03-12,w1,52.36,47.83,48.90,${batch}\n2024-03-12,w2,52.36,47.83,,\n`;

async function trialOf(files: FolderFiles) {
  const check = await inFolder({ ...validFolder(), ...files }, checkTrial);
  if (check.kind !== 'trial') throw new Error(check.problems.map(describeProblem).join('; '));
  return check.trial;
}

async function problemsOf(files: FolderFiles): Promise<readonly string[]> {
  const check = await inFolder({ ...validFolder(), ...files }, checkTrial);
  return check.kind === 'problems' ? check.problems.map(describeProblem) : [];
}

describe('batches.csv', () => {
  it('is read row by row, cores name their batch, and a folder without it has none', async () => {
    const batches = `${header}B1,105,0.1 % in 24 h,0.05,75,20,\n`;
    const trial = await trialOf({ 'batches.csv': batches, 'cores.csv': cores('B1') });
    expect(trial.batches).toEqual([
      {
        batch: 'B1',
        oven_c: 105,
        stopRule: '0.1 % in 24 h',
        lastChange_pct: 0.05,
        humidity_pct: 75,
        humidTemperature_c: 20,
        origin: { file: 'batches.csv', row: 2 },
      },
    ]);
    expect(trial.cores.map(({ batch }) => batch)).toEqual(['B1', undefined]);
    expect('batches' in (await trialOf({}))).toBe(false);
  });

  it.each([
    ['an oven in kelvin', 'B1,378,,,,,', 'column oven_c: found "378", expected the temperature of the oven in °C'],
    ['an oven that dries nothing', 'B1,21,,,,,', 'column oven_c: found "21"'],
    ['humidity over 105 %', 'B1,105,,,105.1,20,', 'column humidity_pct: found "105.1"'],
    ['a humidity as a share', 'B1,105,,,0.75,20,', 'column humidity_pct: found "0.75"'],
    ['a humid weighing in Fahrenheit', 'B1,105,,,75,68,', 'column humid_temperature_c: found "68"'],
    ['a change of mass below zero', 'B1,105,,-1,,,', 'column last_change_pct: found "-1"'],
    ['a batch twice', 'B1,105,,,,,\nB1,70,,,,,', 'row 3, column batch: found the same batch as in row 2'],
  ])('%s is refused', async (_, rows, expected) => {
    const found = await problemsOf({ 'batches.csv': `${header}${rows}\n`, 'cores.csv': cores('B1') });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/^batches\.csv, row [23], column /);
    expect(found[0]).toContain(expected);
  });

  it('holds the change before the last, and refuses one below zero or above 100 %', async () => {
    const of = (change: string) => ({
      'batches.csv': `${twoChanges}B1,105,${change},0.05\n`,
      'cores.csv': cores('B1'),
    });
    expect((await trialOf(of('0.4'))).batches?.[0]).toMatchObject({ changeBefore_pct: 0.4, lastChange_pct: 0.05 });
    for (const wrong of ['-0.1', '101'])
      expect(await problemsOf(of(wrong))).toEqual([
        expect.stringMatching(
          /^batches\.csv, row 2, column change_before_pct: found .*between the two weighings before/,
        ),
      ]);
  });

  it.each([
    ['oven_c', [30, 200], ['29.9', '200.1']],
    ['last_change_pct', [0, 100], ['-0.1', '100.1']],
    ['humidity_pct', [1.1, 105], ['1', '105.1']],
    ['humid_temperature_c', [0, 60], ['-0.1', '60.1']],
  ])('%s is taken at %j and refused at %j', async (column, taken, refused) => {
    const of = (value: number | string) => ({
      'batches.csv': `batch,${column}\nB1,${value}\n`,
      'cores.csv': cores('B1'),
    });
    for (const value of taken) expect(await problemsOf(of(value))).toEqual([]);
    for (const value of refused)
      expect(await problemsOf(of(value))).toEqual([expect.stringContaining(`column ${column}: found "${value}"`)]);
  });

  it.each([100, 100.4, 105])('%f % is kept as the hygrometer showed it: saturated air', async (shown) => {
    const trial = await trialOf({ 'batches.csv': `${header}B1,105,,,${shown},20,\n`, 'cores.csv': cores('B1') });
    expect(trial.batches?.map(({ humidity_pct }) => humidity_pct)).toEqual([shown]);
  });

  it('a core of a batch that is not there is refused', async () => {
    const found = await problemsOf({ 'batches.csv': `${header}B1,105,,,,,\n`, 'cores.csv': cores('B2') });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/^cores\.csv, row 2, column batch: .*a batch of batches\.csv/);
  });

  it('air in kelvin is refused', async () => {
    const found = await problemsOf({ 'climate.csv': 'time,place,temperature_c\n2024-03-12,hall,291\n' });
    expect(found[0]).toMatch(/^climate\.csv, row 2, column temperature_c: found "291".*kelvin/);
  });
});

describe('potentials', () => {
  const setup = { electrode: 'steel pin', reference: 'pin in the floor', polarity: 'point-minus-reference' };
  const protocolWith = (further: object) => {
    const plan = JSON.parse(String(validFolder()['protocol.json']));
    const instruments = [...plan.instruments, { instrument: 'pins', kind: 'potential', ...setup, ...further }];
    return JSON.stringify({ ...plan, instruments });
  };
  it('a reading with reversed leads comes out in the polarity of the plan', async () => {
    const readings =
      'date,wall,instrument,value,lead\n2024-03-12,w1,pins,42,as-stated\n2024-03-13,w1,pins,-40,reversed\n';
    const protocol = protocolWith({ ...setup, impedance_mohm: 10 });
    const trial = await trialOf({ 'protocol.json': protocol, 'readings.csv': readings });
    expect(trial.protocol.instruments.at(-1)).toEqual({
      instrument: 'pins',
      kind: 'potential',
      ...setup,
      impedance_mohm: 10,
    });
    const pins = moistureReadings(trial).filter(({ instrument }) => instrument === 'pins');
    expect(pins.map(({ value }) => value)).toEqual([
      { kind: 'measured', value: 42 },
      { kind: 'measured', value: 40 },
    ]);
  });

  it.each([
    [{ polarity: 'plus' }, 'polarity'],
    [{ impedance_mohm: 0 }, 'impedance_mohm'],
    [{ electrode: undefined }, 'electrode'],
    [{ reference: undefined }, 'reference'],
    [{ polarity: undefined }, 'polarity'],
    [{ kind: 'microwave', electrode: 'pin', reference: undefined, polarity: undefined }, 'electrode'],
  ])('%j is refused', async (further, key) => {
    const found = await problemsOf({ 'protocol.json': protocolWith(further) });
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(key);
  });
});

describe('cores lighter wet or humid than dry', () => {
  // Resolution 0.01 g: 3 · √2 · 0.01/√12 = 0.01225 g of noise, in another language.
  it.each([
    ['wet_g', '2024-03-12,w1,47.82,47.83,'],
    ['humid_g', '2024-03-12,w1,52.36,47.83,47.82'],
  ])('keeps %s 0.01 g below dry, within the noise of a balance of 0.01 g', async (column, row) => {
    const trial = await trialOf({ 'cores.csv': `date,wall,wet_g,dry_g,humid_g\n${row}\n` });
    const [core] = trial.cores;
    expect(column === 'wet_g' ? core?.wet_g : core?.humid_g).toBe(47.82);
    const [reading] = moistureReadings(trial).filter(
      ({ instrument, station }) => instrument === 'core' && station === '',
    );
    if (column === 'wet_g') expect(reading?.value).toEqual({ kind: 'measured', value: expect.closeTo(-1 / 47.83, 10) });
  });

  it.each([
    ['wet_g', '2024-03-12,w1,47.81,47.83,'],
    ['humid_g', '2024-03-12,w1,52.36,47.83,47.81'],
  ])('refuses %s 0.02 g below dry, with file, row and column', async (column, row) => {
    const found = await problemsOf({ 'cores.csv': `date,wall,wet_g,dry_g,humid_g\n${row}\n` });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(new RegExp(`^cores\\.csv, row 2, column ${column}: found 47\\.81 g`));
  });
});
