import { expect, it } from 'vitest';
import { formOpinion, type Trial } from '../../src/index.js';
import { opinionJson } from '../../src/opinion/opinion-json.js';
import { reportDocument } from '../../src/opinion/report/report-document.js';
import { toMarkdown } from '../../src/opinion/report/to-markdown.js';
import { madeTrial, wallsWithChanges } from '../helpers/made-trial.js';

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

it('the report has a section with both tables, says what is missing, and has none without the file', () => {
  const text = (one: Trial) => toMarkdown(reportDocument(formOpinion(one)));
  expect(text(trial)).toMatch(/## The electrodes/);
  expect(text(trial)).toMatch(/could move at most[^\n]*0\.036 to 36/);
  expect(text({ ...made, electrical })).toMatch(/Missing: [^\n]*the area of the walls/);
  expect(text(made)).not.toMatch(/## The electrodes/);
  expect(text(made)).toMatch(/licensed electrician/);
});
