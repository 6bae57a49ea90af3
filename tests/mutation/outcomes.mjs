import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { list } from './list.mjs';
import { outcomesTable } from './outcomes-table.mjs';

/** @typedef {{ readonly outcome: 'killed' | 'survived'; readonly by?: string }} Outcome */

const stored = join(import.meta.dirname, 'mutations.json');
const shown = join(import.meta.dirname, 'mutations.md');

/** @param {import('./mutation.mjs').Mutation} mutation */
export function keyOf({ file, find, replace }) {
  return JSON.stringify([file, find, replace]);
}

/** @returns {Map<string, Outcome>} */
export function readOutcomes() {
  if (!existsSync(stored)) return new Map();
  const rows = JSON.parse(readFileSync(stored, 'utf8'));
  return new Map(rows.map(({ file, find, replace, ...outcome }) => [keyOf({ file, find, replace }), outcome]));
}

/**
 * In the order of the list; what is no longer in the list is forgotten.
 *
 * @param {ReadonlyMap<string, Outcome>} outcomes
 */
export function writeOutcomes(outcomes) {
  const rows = list.flatMap((mutation) => {
    const { file, find, replace } = mutation;
    const outcome = outcomes.get(keyOf(mutation));
    return outcome === undefined ? [] : [{ file, find, replace, ...outcome }];
  });
  writeFileSync(stored, `[\n${rows.map((row) => JSON.stringify(row)).join(',\n')}\n]\n`);
  writeFileSync(shown, outcomesTable(outcomes, keyOf));
}
