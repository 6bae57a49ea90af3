import { expect, it } from 'vitest';
import { formOpinion, type Trial } from '../../../src/index.js';
import { reportDocument } from '../../../src/report/report-document.js';
import { opinionJson } from '../../../src/report/writers/opinion-json.js';
import { toMarkdown } from '../../../src/report/writers/to-markdown.js';
import { withElectrodes } from '../../helpers/electrical-trial.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

const made = madeTrial(wallsWithChanges([-4, -3.8, -4.2], [0, 0.2, -0.1]));
const electrical = made.walls.flatMap(({ wall }) =>
  ['2024-07-01T00:00', '2024-07-01T01:00'].map((time) => ({
    ...{ time, wall, state: 'on' as const, origin: { file: 'electrical.csv', row: 2 } },
    ...{ voltage_v: 10, current_a: wall.startsWith('T') ? 1 : 0 },
  })),
);
const walls = made.walls.map((wall) => ({ ...wall, area_m2: 5, thickness_mm: 400, dryDensity_kg_m3: 1700 }));
const trial: Trial = { ...made, walls, electrical };

it('opinion.json holds charge and ledger; without the file nothing is added', () => {
  const { electrical: part } = JSON.parse(opinionJson(formOpinion(trial)));
  expect(part.walls).toHaveLength(6);
  expect(part.walls[0]).toMatchObject({ charge_c: 3600, charge_ah: 1, energy_j: 36_000, on_s: 3600 });
  expect(part.ledger).toMatchObject({ walls: 3, missing: [] });
  // 34 kg for each percent.
  const { primary } = JSON.parse(opinionJson(formOpinion(trial)));
  expect(part.ledger.lost_kg).toBeCloseTo(-34 * primary.estimate, 6);
  expect('electrical' in JSON.parse(opinionJson(formOpinion(made)))).toBe(false);
});

it('opinion.json holds the means of the arms and the trend of the current, null where there is none', () => {
  const { electrical: part } = JSON.parse(opinionJson(formOpinion(trial)));
  expect(part.arms).toMatchObject([
    { arm: 'treated', side: 'treated', walls: 3, charge_c: 3600, charge_ah: 1, current_a: 1, currentKept: 1 },
    { arm: 'sham', side: 'untreated', walls: 3, charge_c: 0, currentKept: null, reversedShare: null },
  ]);
  expect(part.currentTrend).toBeNull();
  const falling = JSON.parse(
    opinionJson(
      formOpinion(withElectrodes(made, { current: (wall, day) => 0.04 - 1e-5 * day * (5 + Number(wall.slice(1))) })),
    ),
  ).electrical.currentTrend;
  expect(falling.walls).toBe(3);
  expect(falling.interval.upper).toBeLessThan(0);
  expect(falling.per30Days).toBeGreaterThan(falling.interval.lower);
});

it('the report has the means by arm and the chart, and the trend where there is one', () => {
  const text = (one: Trial) => toMarkdown(reportDocument(formOpinion(one)));
  expect(text(trial)).toMatch(/Electrodes by arm/);
  expect(text(trial)).toMatch(/Current of every circuit over time[^\n]*3 walls, 3 circuits, 1[^0-9]?000\.0 at first/);
  expect(text(trial)).not.toMatch(/In 30 days the current/);
  expect(text(withElectrodes(made))).toMatch(/In 30 days the current of 3 treated walls/);
  const off = electrical.map(({ current_a: _, voltage_v: __, ...row }) => ({ ...row, state: 'off' as const }));
  expect(text({ ...made, electrical: off })).not.toMatch(/Current of every circuit/);
});

it('the report has a section with both tables, says what is missing, and has none without the file', () => {
  const text = (one: Trial) => toMarkdown(reportDocument(formOpinion(one)));
  expect(text(trial)).toMatch(/## Annex [A-Z]\. Potentials and currents/);
  expect(text(trial)).toMatch(/could move at most[^\n]*0\.036 to 36/);
  expect(text({ ...made, electrical })).toMatch(/Missing: [^\n]*the area of the walls/);
  expect(text(made)).not.toMatch(/## Annex [A-Z]\. Potentials and currents/);
  expect(text(made)).toMatch(/licensed electrician/);
});
