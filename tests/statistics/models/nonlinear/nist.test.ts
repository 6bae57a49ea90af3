import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type NonlinearFit, nonlinearLeastSquares } from '../../../../src/statistics/index.js';
import { swept } from '../../../helpers/sweep.js';
import { nistModels } from './nist-models.js';

interface Answers {
  readonly estimates: number[];
  readonly standardErrors: number[];
  readonly residualDeviation: number;
}

interface NistSet {
  readonly name: string;
  readonly difficulty: 'Lower' | 'Average' | 'Higher';
  readonly response: number[];
  readonly predictors: number[][];
  readonly starts: number[][];
  readonly certified: Answers & { readonly residualSumOfSquares: number };
}

type FromR = Answers | { readonly failed: string };

interface NlsCase {
  readonly name: string;
  readonly gaussNewton: FromR[];
  readonly strict: FromR[];
  readonly port: FromR[];
}

function casesOf<Case>(file: string): Case[] {
  return JSON.parse(readFileSync(new URL(`../../../reference/nist/${file}`, import.meta.url), 'utf8')).cases;
}

const sets = casesOf<NistSet>('nonlinear.json');
const nls = new Map(casesOf<NlsCase>('nonlinear/nls.json').map((one) => [one.name, one]));

/** Certified values are printed to 11 digits, so that agreement beyond the tenth is theirs and not ours to decide. */
const PRINTED_DIGITS = 10;

function logRelativeError(found: readonly number[], certified: readonly number[]): number {
  const digits = found.map((value, k) => -Math.log10(Math.abs(value - certified[k]!) / Math.abs(certified[k]!)));
  return Math.min(PRINTED_DIGITS, ...digits);
}

function digitsOf(answers: Answers, { certified }: NistSet) {
  return {
    estimates: logRelativeError(answers.estimates, certified.estimates),
    standardErrors: logRelativeError(answers.standardErrors, certified.standardErrors),
    residualDeviation: logRelativeError([answers.residualDeviation], [certified.residualDeviation]),
  };
}

type Digits = ReturnType<typeof digitsOf>;

function fitOf(set: NistSet, start: readonly number[]): NonlinearFit<string, readonly number[]> {
  const model = nistModels[set.name]!;
  const names = start.map((_, j) => `b${j + 1}`);
  return nonlinearLeastSquares<string, readonly number[]>({
    model: (parameters, x) =>
      model(
        names.map((name) => parameters[name]!),
        x,
      ),
    x: set.response.map((_, row) => set.predictors.map((values) => values[row]!)),
    // Nelson's model is that of the logarithm.
    response: set.name === 'Nelson' ? set.response.map(Math.log) : set.response,
    start: Object.fromEntries(names.map((name, j) => [name, start[j]!])),
  });
}

function answersOf(fit: NonlinearFit<string, readonly number[]>): Answers {
  return {
    estimates: fit.parameters.map(({ estimate }) => estimate),
    standardErrors: fit.parameters.map(({ standardError }) => standardError),
    residualDeviation: fit.residualStandardDeviation,
  };
}

function shown(digits: Digits | undefined): string {
  if (digits === undefined) return 'fails'.padEnd(16);
  return Object.values(digits)
    .map((value) => value.toFixed(1).padStart(4))
    .join(' ')
    .padEnd(16);
}

/**
 * Digits of the residual deviation that doubles can hold: how much it moves, to one side or the other, when every response
 * goes to the double next to it, away from the curve or towards it. The decimals of the data lie between such doubles.
 */
function digitsInDoubles(set: NistSet): number {
  const { fitted } = fitOf(set, set.certified.estimates);
  const deviations = [1, -1].map((way) => {
    const response = set.response.map((y, row) => {
      const spacing = 2 ** (Math.floor(Math.log2(Math.abs(y))) - 52);
      return y + way * Math.sign(y - fitted[row]!) * spacing;
    });
    return fitOf({ ...set, response }, set.certified.estimates).residualStandardDeviation;
  });
  const { residualDeviation } = set.certified;
  return -Math.log10(Math.max(...deviations.map((moved) => Math.abs(moved / residualDeviation - 1))));
}

const lines: string[] = [];

/** The eight of which NIST says so, and one that leaves next to no residuals. */
const fitted = swept(sets, ({ name, difficulty }) => difficulty === 'Higher' || name === 'Lanczos1');
/** The first lies farther away, and is the harder one. */
const starts = swept([0, 1], (from) => from === 0);

describe('nonlinearLeastSquares against NIST, digits that agree of 10', () => {
  it('has all 27 sets, each with two starts, a model, and what R makes of it', () => {
    expect(sets.length).toBe(27);
    expect(fitted.length).toBeGreaterThanOrEqual(9);
    expect(sets.filter(({ name, starts }) => starts.length !== 2 || !nistModels[name] || !nls.has(name))).toEqual([]);
  });

  describe.each(fitted)('$name', (set) => {
    it.each(starts)('from start %i: at least 8 digits, and no fewer than R', (from) => {
      const fit = fitOf(set, set.starts[from]!);
      const ours = digitsOf(answersOf(fit), set);
      const { gaussNewton, strict, port } = nls.get(set.name)!;
      const theirs = [gaussNewton, strict, port].map((runs) => {
        const run = runs[from]!;
        return 'failed' in run ? undefined : digitsOf(run, set);
      });
      lines.push(`${set.name.padEnd(9)} ${from + 1}  ${[ours, ...theirs].map(shown).join(' | ')}`);

      // Not the printed degrees of freedom: for Rat43 these are 9, but 15 observations of 4 parameters leave the 11 of its deviation.
      const { residualSumOfSquares, residualDeviation } = set.certified;
      expect(fit.degreesOfFreedom).toBeCloseTo(residualSumOfSquares / residualDeviation ** 2, 6);
      expect(ours.estimates).toBeGreaterThan(8);
      // Lanczos1 leaves residuals of 1e-13 in values of 1: see the test below.
      const ofResiduals = set.name === 'Lanczos1' ? digitsInDoubles(set) : 8;
      expect(fit.convergence.reason).toBe(set.name === 'Lanczos1' ? 'rounding' : 'relative-offset');
      expect(ours.standardErrors).toBeGreaterThan(ofResiduals);
      expect(ours.residualDeviation).toBeGreaterThan(ofResiduals);
      for (const run of theirs.filter((digits) => digits !== undefined)) {
        expect(ours.estimates).toBeGreaterThanOrEqual(run.estimates);
        expect(ours.standardErrors).toBeGreaterThanOrEqual(run.standardErrors);
        expect(ours.residualDeviation).toBeGreaterThanOrEqual(run.residualDeviation);
      }
    });
  });

  it.each([
    ['Lanczos1', 2.5, 3.5],
    ['Lanczos2', 9, 10.5],
  ])('%s: doubles hold between %d and %d digits of the residuals', (name, least, most) => {
    const held = digitsInDoubles(sets.find((set) => set.name === name)!);
    expect(held).toBeGreaterThan(least);
    expect(held).toBeLessThan(most);
  });

  it('prints the table: estimates, standard errors, residual deviation', () => {
    expect(lines.length).toBe(fitted.length * starts.length);
    const heads = ['ours', 'nls', 'nls, strict', 'nls, port'].map((head) => head.padEnd(16)).join(' | ');
    process.stdout.write(`${['set  start  '.padEnd(13) + heads, ...lines].join('\n')}\n`);
  });
});
