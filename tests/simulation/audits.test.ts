import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isWholeSweep } from '../helpers/sweep.js';
import { type AuditsFile, auditsTable, firstAudits, type Tally } from './audits-trials.js';

const read = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8');
const file: AuditsFile = JSON.parse(read('audits.json'));

/** Of every cell, the count of the first trials. */
function firsts({ audits, shares }: AuditsFile, of: (tally: Tally) => number): readonly (readonly number[])[] {
  return [
    ...audits.map(({ alarms, found }) => [of(alarms), of(found)]),
    ...shares.map(({ estimated, held }) => [of(estimated), of(held)]),
  ];
}

describe('the committed counts of audits', () => {
  it.runIf(isWholeSweep)('begin as a run made now does', { timeout: 60_000 }, () => {
    expect(firsts(firstAudits(), ({ count }) => count)).toEqual(firsts(file, ({ first }) => first));
  });

  it('stand in the table as in the numbers', () => {
    expect(read('audits.md')).toBe(auditsTable(file));
  });

  it('raise no false alarm beyond 5 % by more than three standard errors, and find what was planted', () => {
    expect(file.trials).toBeGreaterThanOrEqual(2_000);
    const most = file.trials * 0.05 + 3 * Math.sqrt(file.trials * 0.05 * 0.95);
    expect(file.audits).toHaveLength(9);
    for (const { fault, alarms, found } of file.audits) {
      expect(alarms.count, fault).toBeLessThanOrEqual(most);
      expect(found.count, fault).toBeGreaterThan(file.trials / 2);
    }
  });

  it('hold the share explained in 94 to 96 of 100 trials, with none and with one', () => {
    expect(file.shares.map(({ truth }) => truth.toFixed(2))).toEqual(['0.00', '1.40']);
    for (const { truth, held, estimated } of file.shares)
      expect(Math.abs((100 * held.count) / estimated.count - 95), `${truth}`).toBeLessThan(1);
  });
});
