import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { list } from './list.mjs';
import { keyOf, readOutcomes } from './outcomes.mjs';
import { outcomesTable } from './outcomes-table.mjs';

const repository = join(import.meta.dirname, '..', '..');
const sources = new Map([...new Set(list.map(({ file }) => file))].map((file) => [file, textOf(file)]));
const run = list.filter(({ equivalent }) => equivalent === undefined);

describe('the list of deliberate faults', () => {
  it('holds at least 200, each once', () => {
    expect(list.length).toBeGreaterThanOrEqual(200);
    expect(new Set(list.map(keyOf)).size).toBe(list.length);
  });

  it('names texts that stand exactly once in their file, and turns each into another', () => {
    const wrong = list.filter(
      ({ file, find, replace }) => find === replace || (sources.get(file) ?? '').split(find).length !== 2,
    );
    expect(wrong.map(({ file, find }) => `${file}: ${find}`)).toEqual([]);
  });

  it('names tests that exist', () => {
    const tests = new Set(list.flatMap((one) => one.tests));
    expect([...tests].filter((test) => !existsSync(join(repository, 'tests', test)))).toEqual([]);
  });

  it('moves every limit by which a threat counts, and calls few faults equivalent, each with its reason', () => {
    const limits = [...textOf('src/findings/limits.ts').matchAll(/^ {2}(\w+): \{\s+value: -?[\d.]/gm)].map(
      ([, name]) => name,
    );
    const moved = list.flatMap(({ file, find }) => (file.endsWith('/limits.ts') ? [find.split(':')[0]] : []));
    expect(limits.length).toBeGreaterThan(50);
    expect(limits.filter((name) => !moved.includes(name))).toEqual([]);
    const equivalent = list.flatMap((one) => (one.equivalent === undefined ? [] : [one.equivalent]));
    expect(equivalent.filter((reason) => reason.length < 20)).toEqual([]);
    expect(equivalent.length).toBeLessThanOrEqual(0.05 * list.length);
  });
});

describe('the table of their outcomes', () => {
  const outcomes = readOutcomes();

  it('covers every fault, and nine in ten were noticed', () => {
    expect(run.filter((one) => !outcomes.has(keyOf(one))).map(({ file, find }) => `${file}: ${find}`)).toEqual([]);
    const killed = run.filter((one) => outcomes.get(keyOf(one))?.outcome === 'killed');
    expect(killed.length / run.length).toBeGreaterThanOrEqual(0.9);
  });

  it('is the one that these outcomes make', () => {
    expect(readFileSync(join(import.meta.dirname, 'mutations.md'), 'utf8')).toBe(outcomesTable(outcomes, keyOf));
  });
});

function textOf(file: string): string {
  return readFileSync(join(repository, file), 'utf8');
}
