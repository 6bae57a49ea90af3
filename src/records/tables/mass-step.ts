import type { Table } from '../folder/table.js';
import { tableLayouts } from '../folder/table-layouts.js';

const massColumns = tableLayouts.cores.numeric.filter((column) => column.endsWith('_g'));

/**
 * The smallest step that the masses of `cores.csv` were written with, in grams: `10^-d`, where d is the most decimals that
 * any mass has. It stands in for the resolution of the balance where the protocol states none.
 *
 * @returns nothing without any mass.
 */
export function massStep_g(table: Table): number | undefined {
  const columns = massColumns.flatMap((column) => table.columns.get(column) ?? []);
  const decimals = table.rows.flatMap(({ cells }) => columns.flatMap((column) => decimalsOf(cells[column] ?? '')));
  return decimals.length === 0 ? undefined : Number(`1e-${decimals.reduce((most, one) => Math.max(most, one), 0)}`);
}

function decimalsOf(text: string): number[] {
  const match = /^[^.,\deE]*\d*(?:[.,](\d*))?(?:[eE]([+-]?\d+))?$/.exec(text);
  return match === null || !/\d/.test(text) ? [] : [Math.max(0, (match[1] ?? '').length - Number(match[2] ?? 0))];
}
