import type { Block, Inline, Line, ReportDocument, Table } from '../../report/document.js';

const lineWidth = 100;

/** A document for a terminal: headings underlined, sentences wrapped, tables in columns. Figures are for pages, and are left out. */
export function toText(report: ReportDocument): string {
  const sections = report.sections.map(({ heading, blocks }) =>
    [`${heading}\n${'-'.repeat(heading.length)}`, ...blocks.map(blockText).filter((text) => text !== '')].join('\n\n'),
  );
  return `${[plain(report.title), report.kicker, ...sections].join('\n\n')}\n`;
}

function blockText(block: Block): string {
  switch (block.kind) {
    case 'subheading':
      return block.text;
    case 'paragraph':
      return wrapped(lineText(block.line));
    case 'list':
      return block.items.map((item) => wrapped(`- ${lineText(item)}`, 2)).join('\n');
    case 'command':
      return block.text;
    case 'terms':
      return block.items.map(({ term, line }) => wrapped(`${term}: ${lineText(line)}`, 2)).join('\n');
    case 'contents':
    case 'photograph':
      return '';
    case 'table':
      return tableText(block);
    case 'figure':
      return '';
  }
}

/** In columns where they fit a line; else row by row, with the name of each column before its cell. */
function tableText({ caption, columns, rows }: Table): string {
  const cells = [columns.map(({ header }) => header), ...rows.map((row) => row.map(lineText))];
  const widths = columns.map((_, index) => Math.max(...cells.map((row) => (row[index] ?? '').length)));
  const width = widths.reduce((sum, one) => sum + one + gap, -gap);
  const lines = width <= lineWidth ? inColumns(cells, columns, widths) : rowByRow(cells);
  return [`${caption}:`, ...lines].join('\n');
}

const gap = 2;

function inColumns(
  rows: readonly (readonly string[])[],
  columns: Table['columns'],
  widths: readonly number[],
): readonly string[] {
  const cellText = (cell: string, index: number) => {
    const width = widths[index] ?? 0;
    return columns[index]?.look === 'number' ? cell.padStart(width) : cell.padEnd(width);
  };
  return rows.map((row) => row.map(cellText).join(' '.repeat(gap)).trimEnd());
}

function rowByRow([headers = [], ...rows]: readonly (readonly string[])[]): readonly string[] {
  return rows.map(([first = '', ...others]) =>
    [wrapped(first), ...others.map((cell, index) => wrapped(`  ${headers[index + 1]}: ${cell}`, 4))].join('\n'),
  );
}

/** Breaks a line at blanks; what follows the first line is indented. A word that is longer than a line stays whole. */
function wrapped(text: string, indent = 0): string {
  const lines: string[] = [];
  let rest = text;
  while (rest.length > lineWidth) {
    const before = rest.lastIndexOf(' ', lineWidth);
    const at = before > indent ? before : rest.indexOf(' ', lineWidth);
    if (at === -1) break;
    lines.push(rest.slice(0, at).trimEnd());
    rest = ' '.repeat(indent) + rest.slice(at + 1);
  }
  return [...lines, rest.trimEnd()].join('\n');
}

function lineText(parts: Line): string {
  return parts.map(plain).join('');
}

function plain(part: Inline): string {
  if (typeof part === 'string') return part;
  return part.kind === 'blank' ? '_'.repeat(30) : part.text;
}
