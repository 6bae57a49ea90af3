import { createHash } from 'node:crypto';
import type { Trial } from '../trial/index.js';

/** Words that no number comes from, and where a record stood in its file. */
const withoutNumbers: ReadonlySet<string> = new Set([
  ...['origin', 'title', 'claim', 'disclosures', 'marginSource', 'source', 'by', 'note', 'why'],
]);

/**
 * The seed of everything random, from what was planned and recorded: the first 32 bits of the SHA-256 of a form that does not know the
 * order of rows or keys, nor how the files were written. A blank line, a byte-order mark or another title draw no other numbers, so that
 * nobody can try spellings until a p-value suits.
 *
 * @example seedOfRecords(trial) === seedOfRecords({ ...trial, readings: [...trial.readings].reverse() }) // true
 */
export function seedOfRecords({
  protocol,
  walls,
  stations,
  readings,
  cores,
  climate,
  beliefs,
  events,
  batches = [],
  checks = [],
  salts,
  injections,
  electrical,
}: Trial): number {
  const tables = [
    walls,
    stations,
    readings,
    cores,
    climate,
    beliefs,
    events,
    batches,
    checks,
    ...(salts === undefined ? [] : [salts]),
    ...(injections === undefined ? [] : [injections]),
    ...(electrical === undefined ? [] : [electrical]),
  ];
  const hash = createHash('sha256').update(canonical(protocol));
  for (const rows of tables) {
    hash.update('\n\n');
    for (const row of [...canonicalRows(rows)].sort()) hash.update(`${row}\n`);
  }
  return hash.digest().readUInt32BE(0);
}

/** JSON with keys in the order of their letters. */
function canonical(value: unknown): string {
  return JSON.stringify(value, (key, inner: unknown) => {
    if (withoutNumbers.has(key)) return undefined;
    if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) return inner;
    return Object.fromEntries(Object.entries(inner).sort(([one], [other]) => (one < other ? -1 : 1)));
  });
}

/**
 * The same of a table's rows, whose keys are names and none of them numbers: with the keys given in order the engine does all of it, and
 * rows are many.
 */
function canonicalRows(rows: readonly unknown[]): readonly string[] {
  const keys = new Set<string>();
  for (const row of rows) collectKeys(row, keys);
  const named = [...keys].sort();
  return rows.map((row) => JSON.stringify(row, named));
}

function collectKeys(value: unknown, keys: Set<string>): void {
  if (typeof value !== 'object' || value === null) return;
  const isList = Array.isArray(value);
  for (const key of Object.keys(value)) {
    if (withoutNumbers.has(key)) continue;
    if (!isList) keys.add(key);
    collectKeys((value as Readonly<Record<string, unknown>>)[key], keys);
  }
}
