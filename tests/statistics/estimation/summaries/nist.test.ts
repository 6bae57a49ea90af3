import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { autocorrelation, mean, standardDeviation } from '../../../../src/statistics/index.js';
import { logRelativeError } from '../../log-relative-error.js';

interface Answers {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly autocorrelation: number;
}

interface NistSet {
  readonly name: string;
  readonly values: number[];
  readonly certified: Answers;
  readonly r: Answers;
}

const { cases }: { cases: NistSet[] } = JSON.parse(
  readFileSync(new URL('../../../reference/nist/univariate/univariate.json', import.meta.url), 'utf8'),
);

const statistics = { mean, standardDeviation, autocorrelation };

describe('mean, standardDeviation and autocorrelation against NIST (log relative error, ours / R)', () => {
  it('has all nine sets', () => {
    expect(cases.map(({ name }) => name).sort()).toEqual([
      'Lew',
      'Lottery',
      'Mavro',
      'Michelso',
      'NumAcc1',
      'NumAcc2',
      'NumAcc3',
      'NumAcc4',
      'PiDigits',
    ]);
  });

  for (const { name, values, certified, r } of cases) {
    for (const what of ['mean', 'standardDeviation', 'autocorrelation'] as const) {
      const ours = logRelativeError(statistics[what](values), certified[what]);
      const theirs = logRelativeError(r[what], certified[what]);
      it(`${name} ${what}: ${ours.toFixed(1)} / ${theirs.toFixed(1)}`, () => {
        expect(ours).toBeGreaterThanOrEqual(13);
        // Half a digit where both are at the end of what doubles hold.
        expect(ours).toBeGreaterThanOrEqual(Math.min(theirs, 14.5));
      });
    }
  }
});
