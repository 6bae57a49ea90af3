import { describe, expect, it } from 'vitest';
import { unitsOfTrade } from '../../src/findings/cores/units-of-trade.js';
import { formOpinion, type Trial } from '../../src/index.js';
import { checkTrial } from '../../src/records/read-trial.js';
import { coresSection } from '../../src/report/sections/cores-section.js';
import { opinionJson } from '../../src/report/writers/opinion-json.js';
import { describeProblem } from '../../src/trial/index.js';
import { addColumns, editedFolder } from '../helpers/edit-folder.js';
import { madeTrial, soundProtocol } from '../helpers/made-trial.js';
import { inFolder } from '../helpers/valid-folder.js';

const wall = (name: string, arm: string, before: number, after: number, stated = {}) => ({
  ...{ wall: name, arm, before, after, ...stated },
});
const brick = { dryDensity_kg_m3: 1750, saturated_pct: 16 };

/** As in the published worked example of the trade’s units: 9.471 % by mass of 1750 kg/m³, 16 % at saturation. */
const trial = madeTrial([
  wall('T1', 'treated', 9.471, 4, brick),
  wall('T2', 'treated', 9.471, 5, brick),
  wall('U1', 'sham', 8, 8, brick),
  wall('U2', 'sham', 9, 8.5, { dryDensity_kg_m3: 1800 }),
]);

describe('unitsOfTrade(trial)', () => {
  const [treated, sham] = unitsOfTrade(trial, 0.95);

  it('gives 16.604 % by volume, 165.74 kg/m³ and 59.19 % of saturation for 9.471 % by mass, worked by hand', () => {
    expect(treated).toMatchObject({ arm: 'treated', side: 'treated' });
    expect(treated?.volume_pct?.before.mean).toBeCloseTo(16.604, 3);
    expect(treated?.water_kg_m3?.before.mean).toBeCloseTo(165.7425, 9);
    expect(treated?.saturation_pct?.before.mean).toBeCloseTo(59.19375, 9);
    // (4.5 − 9.471)/16 · 100, and Student’s interval of two walls: 12.706 · 0.7071/√2 · 100/16.
    expect(treated?.saturation_pct?.change.mean).toBeCloseTo(-31.06875, 9);
    expect(treated?.saturation_pct?.change.interval?.upper).toBeCloseTo(-31.06875 + (12.7062047 * 0.5 * 100) / 16, 5);
  });

  it('takes each wall by what it states: one sham wall has no saturation', () => {
    expect(sham?.water_kg_m3?.before).toMatchObject({ walls: 2, mean: expect.closeTo((140 + 162) / 2, 9) });
    expect(sham?.saturation_pct?.before).toEqual({ walls: 1, mean: expect.closeTo(50, 9) });
  });

  it('does not depend on the unit of the outcome', () => {
    const outcome = { ...soundProtocol.outcome, unit: 'kg/kg' };
    const readings = trial.readings.map((reading) =>
      reading.value.kind === 'measured'
        ? { ...reading, value: { kind: 'measured' as const, value: reading.value.value / 100 } }
        : reading,
    );
    const [first] = unitsOfTrade({ ...trial, readings, protocol: { ...soundProtocol, outcome } }, 0.95);
    expect(first?.saturation_pct?.before.mean).toBeCloseTo(59.19375, 9);
  });

  it('is nothing where no wall states density or saturation, or nothing is weighed', () => {
    expect(unitsOfTrade(madeTrial([wall('T1', 'treated', 9, 4), wall('U1', 'sham', 9, 8)]), 0.95)).toEqual([]);
    const instruments = [{ instrument: 'core', kind: 'direct' as const }];
    expect(unitsOfTrade({ ...trial, protocol: { ...soundProtocol, instruments } }, 0.95)).toEqual([]);
  });
});

describe('cores above saturation', () => {
  // Resolution 1 g: s = 1/√12 = 0.2887 g; for 100 g dry and 116 g wet u(u) = 0.2887/100 · √(1 + 1.16²) = 0.4421 points, in another language.
  const withCore = (wet_g: number): Trial => ({
    ...trial,
    protocol: {
      ...soundProtocol,
      instruments: [{ instrument: 'core', kind: 'gravimetric', resolution_g: 1 }],
    },
    cores: [
      {
        ...{ date: '2024-04-11', wall: 'T1', station: '', container_g: 0, wet_g, dry_g: 100 },
        origin: { file: 'cores.csv', row: 2 },
      },
    ],
  });

  it('count beyond twice the uncertainty of their weighing: 116.88 g is within, 116.9 g beyond', () => {
    const of = (wet_g: number) => unitsOfTrade(withCore(wet_g), 0.95)[0]?.aboveSaturation;
    expect(of(116.88)).toEqual({ cores: 0, of: 5, walls: [] });
    expect(of(116.9)).toEqual({ cores: 1, of: 5, walls: ['T1'] });
  });

  it('are said in the report and in opinion.json', () => {
    const opinion = formOpinion(withCore(120));
    const words = JSON.stringify(coresSection(opinion)?.blocks);
    expect(words).toContain('more than 100 % of saturation');
    expect(words).toContain('Degree of saturation');
    const { units } = JSON.parse(opinionJson(opinion)).cores;
    expect(units[0]).toMatchObject({ arm: 'treated', aboveSaturation: { cores: 1, of: 5, walls: ['T1'] } });
    expect(units[0].volume_pct.before.walls).toBe(2);
    expect(JSON.stringify(coresSection(formOpinion(withCore(110)))?.blocks)).not.toContain('more than 100 %');
  });
});

describe('saturated_pct of walls.csv', () => {
  const checked = (value: string) =>
    inFolder(editedFolder(addColumns('walls.csv', ['saturated_pct'], { 2: [value] })), checkTrial);

  it.each(['1', '17', '100'])('is read at %s', async (value) => {
    const check = await checked(value);
    if (check.kind !== 'trial') throw new Error(check.problems.map(describeProblem).join('; '));
    expect(check.trial.walls[0]?.saturated_pct).toBe(Number(value));
    expect(check.trial.walls[1]).not.toHaveProperty('saturated_pct');
  });

  it.each(['0.17', '0', '-3', '101', 'wet'])('is refused at %s', async (value) => {
    const check = await checked(value);
    expect(check.kind === 'problems' ? check.problems.map(describeProblem) : []).toEqual([
      expect.stringMatching(/^walls\.csv, row 2, column saturated_pct: found ".*", expected .*saturation/),
    ]);
  });
});
