import { list } from './list.mjs';

/** @typedef {import('./outcomes.mjs').Outcome} Outcome */

/** @param {string} text */
const code = (text) => `\`${text.replace(/\s+/g, ' ').trim().replaceAll('|', '\\|')}\``;

/**
 * How many faults of each room the tests noticed, those that they did not, and all of them.
 *
 * @param {ReadonlyMap<string, Outcome>} outcomes by the key of the mutation
 * @param {(mutation: import('./mutation.mjs').Mutation) => string} keyOf
 */
export function outcomesTable(outcomes, keyOf) {
  const rows = list.map((mutation) => ({ ...mutation, outcome: outcomeOf(mutation) }));
  const rooms = [...new Set(rows.map(({ file }) => roomOf(file)))];
  const survivors = rows.filter(({ outcome }) => outcome === 'survived');
  return `${[
    '# Faults that the tests must notice',
    '',
    'Made by `npm run mutate`; not edited by hand. Each fault is one change of one line of the sources; the tests that mirror the file are run with it. `killed`: a test failed.',
    '`equivalent`: nothing that the program gives can differ, for the reason told in the list (`tests/mutation/list/`); it is not run and not counted.',
    '',
    ...table(
      ['room', 'faults', 'killed', 'survived', 'equivalent', 'share killed'],
      [...rooms, 'all'].map((room) => summaryOf(room, room === 'all' ? rows : rows.filter(({ file }) => roomOf(file) === room))),
    ),
    '',
    '## Survivors',
    '',
    ...(survivors.length === 0 ? ['None.'] : changesOf(survivors)),
    '',
    '## All faults',
    '',
    ...changesOf(rows),
  ].join('\n')}\n`;

  function outcomeOf(mutation) {
    return mutation.equivalent === undefined ? (outcomes.get(keyOf(mutation))?.outcome ?? 'not run') : 'equivalent';
  }
}

function roomOf(file) {
  return file.split('/').slice(0, 2).join('/');
}

function summaryOf(room, rows) {
  const count = (outcome) => rows.filter((row) => row.outcome === outcome).length;
  const [killed, equivalent] = [count('killed'), count('equivalent')];
  const share = `${((100 * killed) / Math.max(1, rows.length - equivalent)).toFixed(1)} %`;
  return [room, rows.length, killed, count('survived'), equivalent, share];
}

function changesOf(rows) {
  return table(
    ['file', 'instead of', 'there is', 'outcome'],
    rows.map(({ file, find, replace, outcome }) => [file, code(find), code(replace), outcome]),
  );
}

function table(head, rows) {
  const line = (cells) => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)];
}
