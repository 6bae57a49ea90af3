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
    for (const row of rows.map(canonical).sort()) hash.update(`${row}\n`);
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
