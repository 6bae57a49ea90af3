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

it('problemLines(problems) keeps apart what differs in file, column, suggestion, or has no column', () => {
  const apart = [
    { ...knew, row: 2 },
    { ...knew, row: 2, file: 'cores.csv' },
    { ...knew, row: 2, suggestion: 'no' },
    { file: 'readings.csv', row: 5, found: '3 cells', expected: '4 cells' },
    { file: 'readings.csv', row: 6, found: '3 cells', expected: '4 cells' },
  ];
  expect(problemLines(apart)).toHaveLength(5);
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
