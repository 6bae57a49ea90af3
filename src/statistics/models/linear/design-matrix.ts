import { StatisticsError } from '../../statistics-error.js';
import type { DesignColumn } from './design-column.js';
import type { DesignTerm } from './design-term.js';
import { termColumns } from './term-columns.js';

export type { DesignColumn } from './design-column.js';

/** The right-hand side of a linear model, column by column. */
export interface DesignMatrix {
  readonly columns: readonly DesignColumn[];
}

/**
 * Lays terms side by side as the columns of a design.
 *
 * An intercept takes its length from the other terms, so at least one term must hold data; a model of the mean alone is
 * `{ columns: [{ name: 'intercept', values: [1, 1, …] }] }`.
 *
 * @throws StatisticsError `lengths-differ` naming the term whose length is not that of the first; `too-few` without data
 * @example designMatrix([intercept(), factor('arm', ['control', 'treated'], { reference: 'control' })]).columns.map(({ name }) => name) // ['intercept', 'arm: treated']
 */
export function designMatrix(terms: readonly DesignTerm[]): DesignMatrix {
  const rows = commonLength(terms);
  return { columns: terms.flatMap((term) => termColumns(term, rows)) };
}

function commonLength(terms: readonly DesignTerm[]): number {
  const lengths = terms.flatMap(dataLengths);
  const first = lengths[0];
  if (first === undefined || first.length === 0) {
    throw new StatisticsError('designMatrix', 'too-few', 'needs at least one factor or covariate with values in it');
  }
  const odd = lengths.find((other) => other.length !== first.length);
  if (odd !== undefined) {
    throw new StatisticsError(
      'designMatrix',
      'lengths-differ',
      `needs as many values in every term: "${first.name}" has ${first.length} and "${odd.name}" has ${odd.length}`,
    );
  }
  return first.length;
}

function dataLengths(term: DesignTerm): { readonly name: string; readonly length: number }[] {
  switch (term.kind) {
    case 'intercept':
      return [];
    case 'factor':
    case 'covariate':
      return [{ name: term.name, length: term.values.length }];
    case 'interaction':
      return [...dataLengths(term.first), ...dataLengths(term.second)];
  }
}
