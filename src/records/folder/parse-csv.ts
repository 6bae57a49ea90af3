import Papa, { type ParseError } from 'papaparse';
import type { Problem } from '../../trial/index.js';
import type { Records } from './records.js';
import type { TableLayout } from './table-layouts.js';
import { plainName } from './table-naming.js';

const separators = [
  { name: 'comma', mark: ',' },
  { name: 'semicolon', mark: ';' },
  { name: 'tab', mark: '\t' },
] as const;

/** So much of a text holds its header, whatever stands above it. */
const mostLooked = 65_536;

type Separator = (typeof separators)[number];

/**
 * Splits the text of a CSV file into cells. Commas or semicolons stand between cells: whichever makes more of the expected
 * columns appear in the header.
 *
 * @returns nothing when quotes do not match or tabs stand between the cells; the place is then among the problems.
 */
export function parseCsv(text: string, layout: TableLayout, problems: Problem[]): Records | undefined {
  const { name, mark } = detectSeparator(text, layout);
  if (name === 'tab') {
    const expected = 'commas or semicolons between the cells';
    problems.push({ file: layout.file, row: 1, found: 'tabs between the cells', expected });
    return undefined;
  }
  const { data, errors } = Papa.parse<string[]>(text, { delimiter: mark, newline: '\n', quoteChar: '"' });
  const quoteError = errors.find((error) => error.type === 'Quotes');
  if (quoteError === undefined) return { place: layout.file, separator: name, rows: data };
  problems.push(quoteProblem(layout.file, quoteError));
  return undefined;
}

/** One problem, though everything after the quote is in doubt: the row where it stands. */
function quoteProblem(file: string, error: ParseError): Problem {
  return {
    file,
    row: (error.row ?? 0) + 1,
    found:
      error.code === 'MissingQuotes'
        ? 'an opening quote without a closing one (the file may have been cut off)'
        : 'a closing quote in the middle of a cell',
    expected: 'quotes in pairs around a whole cell, and a quote inside a cell written twice',
  };
}

function detectSeparator(text: string, layout: TableLayout): Separator {
  // Titles may stand above the header.
  const lines = text.trimStart().slice(0, mostLooked).split('\n').slice(0, 30);
  const columns: ReadonlySet<string> = new Set([...layout.needed, ...layout.optional]);
  // Dates and numbers, which most cells are, are no heading: no column begins with a digit.
  const isColumn = (cell: string) => !/^\d/.test(cell) && columns.has(plainName(cell));
  const scoreOf = (line: string, mark: string) => {
    const cells = line.split(mark).map(withoutQuotes);
    // Where no column is right, the mark that there is more of.
    return cells.filter(isColumn).length + cells.length / (line.length + 2);
  };
  let best: Separator = separators[0];
  let bestScore = -1;
  for (const separator of separators) {
    const score = lines.reduce((best, line) => Math.max(best, scoreOf(line, separator.mark)), 0);
    if (score > bestScore) [best, bestScore] = [separator, score];
  }
  return best;
}

function withoutQuotes(cell: string): string {
  return cell
    .trim()
    .replace(/^"(.*)"$/, '$1')
    .trim();
}
