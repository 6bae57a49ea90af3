import { join } from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkDocument } from '../../src/checking/report/check-document.js';
import { toText } from '../../src/checking/report/to-text.js';
import { readTrial } from '../../src/records/index.js';
import type { ReportDocument } from '../../src/report/document.js';
import type { Trial } from '../../src/trial/index.js';
import { swept } from '../helpers/sweep.js';

const dataset = (name: string) => readTrial(join(import.meta.dirname, '..', '..', 'datasets', name));

/** Sections that hold numbers computed from outcomes. The others must not move with an outcome at all. */
const withOutcomes = ['counts', 'spreads'];

function textOf(document: ReportDocument, isWanted: (id: string) => boolean): string {
  return toText({ ...document, sections: document.sections.filter(({ id }) => isWanted(id)) });
}

const outcomesOf = (trial: Trial) => textOf(checkDocument(trial, 'text'), (id) => withOutcomes.includes(id));
const othersOf = (trial: Trial) => textOf(checkDocument(trial, 'text'), (id) => !withOutcomes.includes(id));

const trials = ['who-read-the-meter', 'windward-and-sheltered', 'two-walls', 'treated-walls-only'];

describe.each(swept(trials, (_, at) => at % 2 === 1))('a check of %s', (name) => {
  let trial: Trial;
  beforeAll(async () => {
    trial = await dataset(name);
  });

  it('says the same of outcomes whichever walls were treated', () => {
    const before = outcomesOf(trial);
    const arms = trial.walls.map(({ arm }) => arm);
    const orders = fc.shuffledSubarray(arms, { minLength: arms.length });
    fc.assert(
      fc.property(orders, (shuffled) => {
        const walls = trial.walls.map((wall, index) => ({ ...wall, arm: shuffled[index] ?? wall.arm }));
        expect(outcomesOf({ ...trial, walls })).toBe(before);
      }),
      { numRuns: 4 },
    );
  });

  it('says the same of everything else whatever was measured', () => {
    const before = othersOf(trial);
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.2, max: 0.9, noNaN: true }), { minLength: 20, maxLength: 40 }),
        (shares) => {
          const share = (index: number) => shares[index % shares.length] ?? 0.5;
          const cores = trial.cores.map((core, index) =>
            core.wet_g === undefined || core.dry_g === undefined
              ? core
              : { ...core, wet_g: core.dry_g + share(index) * 0.2 * (core.dry_g - core.container_g) },
          );
          const readings = trial.readings.map((reading, index) =>
            reading.value.kind === 'measured'
              ? { ...reading, value: { kind: 'measured' as const, value: 100 * share(index) } }
              : reading,
          );
          expect(othersOf({ ...trial, cores, readings })).toBe(before);
        },
      ),
      { numRuns: 3 },
    );
  });

  it('fits a terminal, and its tables say what their headings promise', () => {
    const text = toText(checkDocument(trial, 'text'));
    expect(Math.max(...text.split('\n').map(({ length }) => length))).toBeLessThanOrEqual(100);
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
  });
});
