import Papa from 'papaparse';
import type { Problem } from '../../trial/index.js';
import type { Records } from './records.js';
import type { TableLayout } from './table-layouts.js';

/**
 * Splits the text of a CSV file into cells. Commas or semicolons stand between cells: whichever of the two makes more of
 * the expected columns appear in the header.
 *
 * @returns nothing when quotes do not match; the place is then among the problems.
 */
export function parseCsv(text: string, layout: TableLayout, problems: Problem[]): Records | undefined {
  const separator = detectSeparator(text, layout);
  const { data, errors } = Papa.parse<string[]>(text, {
    delimiter: separator === 'comma' ? ',' : ';',
    newline: '\n',
    quoteChar: '"',
  });
  const quoteError = errors.find((error) => error.type === 'Quotes');
  if (quoteError !== undefined) {
    const unterminated = quoteError.code === 'MissingQuotes';
    problems.push({
      file: layout.file,
      row: (quoteError.row ?? 0) + 1,
      found: unterminated
        ? 'an opening quote without a closing one (the file may have been cut off)'
        : 'a closing quote in the middle of a cell',
      expected: 'quotes in pairs around a whole cell, and a quote inside a cell written twice',
    });
    return undefined;
  }
  return { place: layout.file, separator, rows: data };
}

function detectSeparator(text: string, layout: TableLayout): 'comma' | 'semicolon' {
  const header = /^\s*([^\n]*)/.exec(text)?.[1] ?? '';
  const columns: ReadonlySet<string> = new Set([...layout.needed, ...layout.optional]);
  const hits = (mark: string) => header.split(mark).filter((cell) => columns.has(withoutQuotes(cell))).length;
  const cells = (mark: string) => header.split(mark).length;
  const [commaHits, semicolonHits] = [hits(','), hits(';')];
  if (commaHits !== semicolonHits) return semicolonHits > commaHits ? 'semicolon' : 'comma';
  return cells(';') > cells(',') ? 'semicolon' : 'comma';
}

function withoutQuotes(cell: string): string {
  return cell
    .trim()
    .replace(/^"(.*)"$/, '$1')
    .trim();
}
