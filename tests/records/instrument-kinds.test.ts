import { describe, expect, it } from 'vitest';
import { moistureReadings } from '../../src/moisture/index.js';
import { checkTrial } from '../../src/records/read-trial.js';
import { describeProblem } from '../../src/trial/index.js';
import { addLine, type Edit, editedFolder, replace } from '../helpers/edit-folder.js';
import { inFolder } from '../helpers/valid-folder.js';

const checked = (...edits: readonly Edit[]) => inFolder(editedFolder(...edits), checkTrial);

async function problemsOf(...edits: readonly Edit[]): Promise<readonly string[]> {
  const check = await checked(...edits);
  return check.kind === 'problems' ? check.problems.map(describeProblem) : [];
}

async function trialOf(...edits: readonly Edit[]) {
  const check = await checked(...edits);
  if (check.kind !== 'trial') throw new Error(check.problems.map(describeProblem).join('; '));
  return check.trial;
}

const further = (instrument: string): Edit =>
  replace('protocol.json', '"instruments": [', `"instruments": [ ${instrument},`);
const pins = further('{ "instrument": "pins", "kind": "resistance", "scale": "logarithmic" }');
const cm = further('{ "instrument": "cm", "kind": "carbide" }');
const reading = (instrument: string, value: string): Edit =>
  addLine('readings.csv', `2024-03-20,w1,,${instrument},${value},Ada,no`);

describe('a meter with a logarithmic scale', () => {
  it('is read from the plan, and takes any reading above 0', async () => {
    const { protocol } = await trialOf(pins, reading('pins', '0.001'), reading('pins', '<0.5'), reading('pins', 'NA'));
    expect(protocol.instruments[0]).toEqual({ instrument: 'pins', kind: 'resistance', scale: 'logarithmic' });
  });

  it.each(['0', '-3', '<0'])('refuses a reading of %s with file, row and column', async (value) => {
    const found = await problemsOf(pins, reading('pins', value));
    expect(found).toEqual([expect.stringMatching(/^readings\.csv, row \d+, column value: found /)]);
  });

  it('refuses a check on a block that is not above 0', async () => {
    const checks: Edit = (files) => {
      files['checks.csv'] = 'date,instrument,block,value\n2024-03-20,pins,wet,0\n';
    };
    expect(await problemsOf(pins, checks)).toEqual([
      'checks.csv, row 2, column value: found 0, expected a value above 0, for the scale of pins is logarithmic',
    ]);
  });

  it('takes 0 on a linear scale, which is the one unless stated', async () => {
    const linear = further('{ "instrument": "pins", "kind": "resistance" }');
    expect(await problemsOf(linear, reading('pins', '0'))).toEqual([]);
  });

  it.each([
    ['another word', '"resistance", "scale": "log"', 'found "log", expected linear or logarithmic'],
    ['an instrument that is no meter', '"direct", "scale": "logarithmic"', 'found scale with kind direct'],
    ['a carbide gauge', '"carbide", "scale": "logarithmic"', 'found scale with kind carbide'],
  ])('refuses %s', async (_, kind, expected) => {
    const found = await problemsOf(further(`{ "instrument": "pins", "kind": ${kind} }`));
    expect(found).toEqual([expect.stringContaining(expected)]);
    expect(found[0]).toMatch(/^protocol\.json, line \d+, key instruments\[0\]\.scale: /);
  });
});

describe('carbide readings', () => {
  it('are turned from the wet basis to the dry: 20 % of the wet mass is 25 % of the dry, 0.2/(1 − 0.2), worked by hand', async () => {
    const trial = await trialOf(cm, reading('cm', '20'), reading('cm', '<5'), reading('cm', 'NA'), reading('cm', '0'));
    const values = moistureReadings(trial).flatMap(({ instrument, value }) => (instrument === 'cm' ? [value] : []));
    expect(values).toEqual([
      { kind: 'measured', value: expect.closeTo(25, 12) },
      // 0.05/0.95
      { kind: 'below-detection', limit: expect.closeTo(5.2631578947, 9) },
      { kind: 'missing' },
      { kind: 'measured', value: 0 },
    ]);
    // As recorded, the folder's own number stands.
    expect(trial.readings.filter(({ instrument }) => instrument === 'cm')[0]?.value).toEqual({
      kind: 'measured',
      value: 20,
    });
  });

  it.each(['100', '120', '-1', '<100'])('are refused at %s %% of the wet mass', async (value) => {
    expect(await problemsOf(cm, reading('cm', value))).toEqual([
      expect.stringMatching(/^readings\.csv, row \d+, column value: .*carbide reading in % of the wet mass/),
    ]);
  });

  const swapped = (unit: string): readonly Edit[] => [
    replace('protocol.json', '"outcome": {\n    "instrument": "core"', '"outcome": {\n    "instrument": "cm"'),
    cm,
    replace('protocol.json', '"unit": "% by mass"', `"unit": "${unit}"`),
  ];

  it('can be the outcome in a unit that they can be computed in, and in no other', async () => {
    const trial = await trialOf(...swapped('kg/kg'), reading('cm', '20'));
    const [value] = moistureReadings(trial).flatMap((one) => (one.instrument === 'cm' ? [one.value] : []));
    expect(value).toEqual({ kind: 'measured', value: expect.closeTo(0.25, 12) });
    expect(await problemsOf(...swapped('% of saturation'))).toEqual([
      expect.stringContaining('a unit that carbide readings can be computed in'),
    ]);
  });
});

describe('losses while drilling', () => {
  const stated = (keys: string): Edit =>
    replace('protocol.json', '"kind": "gravimetric",', `"kind": "gravimetric", ${keys},`);

  it('are read from the plan', async () => {
    const { protocol } = await trialOf(stated('"drilling_loss_pct": 6, "drilling_loss_uncertainty_pct": 2'));
    expect(protocol.instruments[0]).toMatchObject({ drilling_loss_pct: 6, drilling_loss_uncertainty_pct: 2 });
    expect(await problemsOf(stated('"drilling_loss_pct": 50'))).toEqual([]);
  });

  it.each([
    ['below 0', '"drilling_loss_pct": -1', 'drilling_loss_pct'],
    ['above half the water', '"drilling_loss_pct": 51', 'drilling_loss_pct'],
    ['an uncertainty alone', '"drilling_loss_uncertainty_pct": 2', 'drilling_loss_uncertainty_pct'],
  ])('are refused: %s', async (_, keys, key) => {
    const found = await problemsOf(stated(keys));
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(`instruments[0].${key}`);
  });

  it('are refused of an instrument that drills no cores', async () => {
    const found = await problemsOf(further('{ "instrument": "pins", "kind": "resistance", "drilling_loss_pct": 5 }'));
    expect(found).toEqual([expect.stringContaining('drilling_loss_pct with kind resistance')]);
  });
});
