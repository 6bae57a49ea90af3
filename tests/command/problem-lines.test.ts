import { expect, it } from 'vitest';
import { unknownCommand } from '../../src/command/help.js';
import { problemLines } from '../../src/command/problem-lines.js';
import { terminalText } from '../../src/command/terminal-text.js';

const knew = { file: 'readings.csv', column: 'knew_arm', expected: 'yes, no or unsure', found: '"jein"' };

it('problemLines(problems) names a fault once, with its rows and the first of them', () => {
  const problems = [7, 3, 9].map((row) => ({ ...knew, row }));
  expect(problemLines([...problems, { ...knew, row: 4, found: '"maybe"' }])).toEqual([
    'readings.csv, column knew_arm: found "jein" in 3 rows (first: row 7), expected yes, no or unsure',
    'readings.csv, row 4, column knew_arm: found "maybe", expected yes, no or unsure',
  ]);
});

it('problemLines(problems) keeps apart what differs in file, column or suggestion, and what has no row', () => {
  const apart = [
    { ...knew, row: 2 },
    { ...knew, row: 2, file: 'cores.csv' },
    { ...knew, row: 2, suggestion: 'no' },
    { file: 'readings.csv', row: 5, found: '3 cells', expected: '4 cells' },
    { file: 'a.csv', found: 'no such file', expected: 'a file' },
    { file: 'a.csv', found: 'no such file', expected: 'a file' },
  ];
  expect(problemLines(apart)).toHaveLength(6);
});

it('problemLines(problems) makes one line of more than three different cells of a column that fall short of the same', () => {
  const rows = (count: number) =>
    Array.from({ length: count }, (_, k) => ({ ...knew, row: k + 2, found: `"${k} cm"` }));
  expect(problemLines(rows(3))).toHaveLength(3);
  expect(problemLines([...rows(40), ...rows(40)])).toEqual([
    'readings.csv, column knew_arm: found "0 cm", "1 cm" and 38 more like them in 80 rows (first: row 2), expected yes, no or unsure',
  ]);
});

it('problemLines(problems) counts rows of a wrong length as one', () => {
  const short = [5, 6].map((row) => ({ file: 'readings.csv', row, found: '3 cells', expected: '4 cells' }));
  expect(problemLines(short)).toEqual(['readings.csv: found 3 cells in 2 rows (first: row 5), expected 4 cells']);
});

it('terminalText(text) keeps lines and columns, and writes out what moves a cursor or hides', () => {
  expect(terminalText('Verdict:   none\n\u001b[2J\u202eA\u200bB')).toBe(
    'Verdict:   none\n‹U+001B›[2J‹U+202E›A‹U+200B›B',
  );
});

it('unknownCommand(word) suggests what is near', () => {
  expect(unknownCommand('opinon')).toBe('there is no command “opinon”; did you mean “opinion”?');
  expect(unknownCommand('paint')).toBe('there is no command “paint”');
});
