import { StatisticsError } from '../../statistics-error.js';
import type { DesignMatrix } from './design-matrix.js';

/** Throws unless the design and the response are finite, of one length, named apart, and leave degrees of freedom. */
export function checkDesign(where: string, design: DesignMatrix, response: readonly number[]): void {
  const { columns } = design;
  const rows = response.length;
  if (columns.length === 0) throw new StatisticsError(where, 'too-few', 'needs at least one column in the design');
  const names = new Set<string>();
  for (const { name, values } of columns) {
    if (values.length !== rows) {
      const detail = `needs as many values in every column as responses: "${name}" has ${values.length}, the response ${rows}`;
      throw new StatisticsError(where, 'lengths-differ', detail);
    }
    if (names.has(name)) {
      throw new StatisticsError(where, 'out-of-range', `needs columns named apart, got "${name}" twice; rename one`);
    }
    names.add(name);
    checkFinite(where, `column "${name}"`, values);
  }
  checkFinite(where, 'the response', response);
  if (columns.length >= rows) {
    const detail = `needs more observations than coefficients: ${rows} observations for ${columns.length} coefficients leave no degrees of freedom; use a smaller model or add observations`;
    throw new StatisticsError(where, 'too-many-parameters', detail);
  }
}

function checkFinite(where: string, what: string, values: readonly number[]): void {
  let row = 0;
  while (row < values.length && Number.isFinite(values[row])) row++;
  if (row < values.length) {
    const detail = `needs finite numbers: ${what} holds ${values[row]} at observation ${row + 1}; correct it or leave that observation out`;
    throw new StatisticsError(where, 'not-finite', detail);
  }
}
