import Papa, { type ParseError } from 'papaparse';
import type { Problem } from '../../trial/index.js';
import type { Records } from './records.js';
import type { TableLayout } from './table-layouts.js';

const separators = [
  { name: 'comma', mark: ',' },
  { name: 'semicolon', mark: ';' },
  { name: 'tab', mark: '\t' },
] as const;

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
  const header = /^\s*([^\n]*)/.exec(text)?.[1] ?? '';
  const columns: ReadonlySet<string> = new Set([...layout.needed, ...layout.optional]);
  let best: Separator = separators[0];
  let bestScore = -1;
  for (const separator of separators) {
    const cells = header.split(separator.mark).map(withoutQuotes);
    // Where no column is right, the mark that there is more of.
    const score = cells.filter((cell) => columns.has(cell)).length + cells.length / (header.length + 2);
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
