import { readFileSync } from 'node:fs';
import {
  covariate,
  type DesignMatrix,
  type DesignTerm,
  designMatrix,
  factor,
  interaction,
  intercept,
} from '../../../../src/statistics/index.js';

type ReferenceTerm =
  | { readonly kind: 'factor'; readonly name: string; readonly values: string[]; readonly reference: string }
  | { readonly kind: 'covariate'; readonly name: string; readonly values: number[] };

/** A model as the reference files hold it: main terms, and pairs of them that interact. */
export interface ReferenceModel {
  readonly name: string;
  readonly response: number[];
  readonly terms: readonly ReferenceTerm[];
  readonly interactions: readonly (readonly [number, number])[];
  readonly columns: readonly string[];
}

interface ReferenceFile<Case> {
  readonly source: string;
  readonly tool: string;
  readonly cases: readonly Case[];
}

export function readReference<Case>(file: string): ReferenceFile<Case> {
  return JSON.parse(readFileSync(new URL(`../../../reference/linear/${file}`, import.meta.url), 'utf8'));
}

export function termsOf(model: ReferenceModel): DesignTerm[] {
  const main = model.terms.map((term) =>
    term.kind === 'factor'
      ? factor(term.name, term.values, { reference: term.reference })
      : covariate(term.name, term.values),
  );
  const products = model.interactions.map(([first, second]) => interaction(main[first]!, main[second]!));
  return [intercept(), ...main, ...products];
}

export function designOf(model: ReferenceModel): DesignMatrix {
  return designMatrix(termsOf(model));
}

/** Largest relative difference of two lists, with differences below `floor` counted as if the value were `floor`. */
export function relativeError(actual: readonly number[], expected: readonly number[], floor = 0): number {
  if (actual.length !== expected.length) return Number.POSITIVE_INFINITY;
  return actual.reduce((worst, value, index) => {
    const size = Math.max(Math.abs(expected[index]!), floor);
    const error = value === expected[index] ? 0 : Math.abs(value - expected[index]!) / size;
    return Math.max(worst, Number.isNaN(error) ? Number.POSITIVE_INFINITY : error);
  }, 0);
}
