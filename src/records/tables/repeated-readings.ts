import type { Reading } from '../../trial/index.js';
import type { Table } from '../folder/table.js';

/** Two rows that hold the same reading. */
export interface Repeat {
  /** Index among the rows of the table. */
  readonly index: number;
  readonly earlier: number;
}

/**
 * Finds the readings that are there twice: date (with its time, if it has one), wall, station, instrument, reader, value
 * and every column that the contract does not know are the same, as in a row pasted twice. Missing values are never the
 * same reading.
 *
 * Looks first at what tells most readings apart, which is series and date: a long key for each of some hundred thousand
 * readings would take longer than all the rest of reading them.
 *
 * @param readings - one for each row of the table.
 */
export function repeatedReadings(table: Table, readings: readonly Reading[]): Repeat[] {
  const repeats: Repeat[] = [];
  const series = new Map<string, Map<string, number | Map<string, number>>>();
  for (const [index, reading] of readings.entries()) {
    const { date, wall, station, instrument, reader = '', value } = reading;
    if (value.kind === 'missing') continue;
    const dates = entryOf(series, `${wall}\0${station}\0${instrument}\0${reader}`);
    const first = dates.get(date);
    if (first === undefined) {
      dates.set(date, index);
      continue;
    }
    const detail = (at: number) => detailOf(table, readings, at);
    const details = typeof first === 'number' ? new Map([[detail(first), first]]) : first;
    if (typeof first === 'number') dates.set(date, details);
    const key = detail(index);
    const earlier = details.get(key);
    if (earlier === undefined) details.set(key, index);
    else repeats.push({ index, earlier });
  }
  return repeats;
}

function entryOf<Key, Value>(entries: Map<Key, Map<string, Value>>, key: Key): Map<string, Value> {
  const present = entries.get(key);
  if (present !== undefined) return present;
  const added = new Map<string, Value>();
  entries.set(key, added);
  return added;
}

/** Fields are kept apart by a character that cannot occur in a cell. */
function detailOf({ furtherColumns, rows }: Table, readings: readonly Reading[], index: number): string {
  const value = readings[index]?.value;
  const recorded =
    value?.kind === 'measured' ? `${value.value}` : value?.kind === 'below-detection' ? `<${value.limit}` : '';
  return furtherColumns.reduce((all, column) => `${all}\0${rows[index]?.cells[column] ?? ''}`, recorded);
}
