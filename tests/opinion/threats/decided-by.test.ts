import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { formOpinion, limits, searches } from '../../../src/index.js';
import { decidedBy, decidedCodes } from '../../../src/opinion/threats/decided-by.js';
import { reportDocument } from '../../../src/report/report-document.js';
import { opinionJson } from '../../../src/report/writers/opinion-json.js';
import { toMarkdown } from '../../../src/report/writers/to-markdown.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

const folder = join(import.meta.dirname, '..', '..', '..', 'src', 'opinion', 'threats');
const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) => file.includes('/'));
const codes = new Set(searches.map(({ code }) => code));
const says = (code: string) => decidedBy(code).map((figure) => figure.says);

describe('what decides a threat', () => {
  it('is said of threats that exist, and of every limit', () => {
    expect(decidedCodes.filter((code) => !codes.has(code))).toEqual([]);
    const said = new Set(decidedCodes.flatMap(says));
    expect(Object.values(limits).filter((limit) => !said.has(limit.says))).toEqual([]);
  });

  it.each(files)('%s says every limit that it reads', (file) => {
    const text = readFileSync(join(folder, file), 'utf8');
    const own = [...text.matchAll(/code: '([a-z-]+)'/g)].flatMap(([, code = '']) => says(code));
    const read = [...text.matchAll(/limits\.(\w+)\./g)].map(([, name]) => name as keyof typeof limits);
    const alarms = /\balarm(At|Of)\(/.test(text) ? (['alarm', 'plainAlarm'] as const) : [];
    expect([...read, ...alarms].filter((name) => !own.includes(limits[name].says))).toEqual([]);
  });

  it('carries figures from memory: the evaporation that a fall is held against, constant mass, gypsum', () => {
    const marks = (code: string) => decidedBy(code).map(({ value, mark }) => [value, mark]);
    expect(marks('larger-than-ceiling')).toEqual([
      [75e-9, 'from memory'],
      [25e-9, 'from memory'],
      [1.5, 'from memory, weak'],
      [3.5, 'our convention'],
      [1700, 'our convention'],
      [600, 'our convention'],
      [2, 'our convention'],
    ]);
    expect(marks('after-too-early')).toContainEqual([100, 'our convention']);
    expect(marks('not-dried-to-constant-mass')).toContainEqual([0.1, 'from memory']);
    expect(marks('oven-too-hot-for-gypsum')).toEqual([[42, 'from memory']]);
    expect(marks('sensor-days-missing')).toContainEqual([0.75, 'common practice, no source']);
  });
});

describe('the marks in an opinion', () => {
  const opinion = formOpinion(madeTrial(wallsWithChanges([-2.2, -2.4, -2.6, -2.8], [-0.1, 0.1, -0.2, 0.2])));

  it('stand in opinion.json beside each threat that was looked for, and beside none that could not be', () => {
    const { threats } = JSON.parse(opinionJson(opinion));
    for (const { code, finding, decidedBy: own } of threats)
      expect(own, code).toEqual(finding === 'could-not-be-looked-for' ? [] : decidedBy(code));
    expect(threats.some(({ decidedBy: own }: { decidedBy: unknown[] }) => own.length > 0)).toBe(true);
  });

  it('stand in the report with what they decide, each number once', () => {
    const text = toMarkdown(reportDocument(opinion));
    const ceiling = opinion.threats.find(({ code }) => code === 'larger-than-ceiling');
    expect(ceiling?.finding).not.toBe('could-not-be-looked-for');
    expect(text.match(/what one wet face can give off at most[^\n]*common practice, no source/g)).toHaveLength(1);
    expect(text).toContain('| 75 × 10⁻⁹ kg/(m² s Pa) | coefficient');
    expect(text.match(/\| our convention \|/g)?.length).toBeGreaterThan(5);
  });
});
