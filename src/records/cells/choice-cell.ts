import type { TableRow } from '../folder/table.js';
import { nearestName } from '../nearest-name.js';
import { alternatives } from '../quoted.js';
import type { CellReader } from './cell-reader.js';

/** A cell that holds one word of a fixed list, or nothing. */
export function choiceCell<Choice extends string>(
  cells: CellReader,
  row: TableRow,
  column: string,
  choices: readonly Choice[],
): Choice | undefined {
  const word = cells.text(row, column);
  if (word === undefined) return undefined;
  const choice = choiceOfWord(word, choices);
  if (choice !== undefined && choice !== word) cells.mended(row, column, 'word', choice);
  if (choice === undefined) cells.refuse(row, column, `${alternatives(choices)}`, nearestName(word, choices));
  return choice;
}

/** Like `choiceCell`, for a cell that must be filled. The first choice stands in where the problem has been noted. */
export function neededChoiceCell<Choice extends string>(
  cells: CellReader,
  row: TableRow,
  column: string,
  choices: readonly [Choice, ...Choice[]],
): Choice {
  cells.needed(row, column, alternatives(choices));
  return choiceCell(cells, row, column, choices) ?? choices[0];
}

/** The choice that a word stands for: `YES` or `Y` can only mean `yes`. */
export function choiceOfWord<Choice extends string>(word: unknown, choices: readonly Choice[]): Choice | undefined {
  if (typeof word !== 'string') return undefined;
  const exact = choices.find((choice) => choice === word);
  if (exact !== undefined) return exact;
  const plain = word.trim().toLowerCase();
  const whole = choices.find((choice) => choice === plain);
  if (whole !== undefined || (plain !== 'y' && plain !== 'n')) return whole;
  return choices.find((choice) => choice === (plain === 'y' ? 'yes' : 'no'));
}
