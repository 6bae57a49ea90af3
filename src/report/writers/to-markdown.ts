import type { Block, Figure, Inline, Line, Link, Photo, ReportDocument, Section, Table } from '../document.js';
import { escapeMarkdown, markdownCode } from './escape-markdown.js';
import { numbersOf } from './numbers-of.js';

/** What a writer of Markdown looks up: the numbers of figures and tables, and the headings that links lead to. */
interface Places {
  readonly numbers: ReadonlyMap<Figure | Photo | Table, number>;
  readonly headings: ReadonlyMap<string, string>;
}

/** The report as Markdown: each chart as its description, everything else as it stands. */
export function toMarkdown(report: ReportDocument): string {
  const places = {
    numbers: numbersOf(report),
    headings: new Map(report.sections.map(({ id, heading }) => [id, heading])),
  };
  const parts = [
    `# ${inline(report.title, places)}`,
    escapeMarkdown(report.kicker),
    ...report.sections.map((section) => sectionText(section, places)),
  ];
  return `${parts.join('\n\n')}\n`;
}

function sectionText(section: Section, places: Places): string {
  return [`## ${escapeMarkdown(section.heading)}`, ...section.blocks.map((block) => blockText(block, places))].join(
    '\n\n',
  );
}

function blockText(block: Block, places: Places): string {
  switch (block.kind) {
    case 'subheading':
      return `${block.deep === true ? '####' : '###'} ${escapeMarkdown(block.text)}`;
    case 'paragraph':
      return block.role === undefined ? line(block.line, places) : `> ${line(block.line, places)}`;
    case 'list':
      return block.items.map((item) => `- ${line(item, places)}`).join('\n');
    case 'command':
      return ['```sh', block.text, '```'].join('\n');
    case 'terms':
      return block.items.map((item) => `**${escapeMarkdown(item.term)}.** ${line(item.line, places)}`).join('\n\n');
    case 'contents':
      return block.links.map((each) => `- ${inline(each, places)}`).join('\n');
    case 'table':
      return table(block, places);
    case 'photograph':
      return `**Figure ${places.numbers.get(block)}.** ${escapeMarkdown(block.caption)} *(A photograph, in opinion.html.)*`;
    case 'figure':
      return [
        `**Figure ${places.numbers.get(block)}.** ${escapeMarkdown(block.caption)}`,
        ...block.charts.map((chart) => `*In words:* ${escapeMarkdown(chart.description)}`),
      ].join('\n\n');
  }
}

function table(block: Table, places: Places): string {
  const row = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [
    `**Table ${places.numbers.get(block)}. ${escapeMarkdown(block.caption)}**`,
    '',
    row(block.columns.map((column) => escapeMarkdown(column.header))),
    row(block.columns.map((column) => (column.look === 'number' ? '---:' : '---'))),
    ...block.rows.map((cells) => row(cells.map((cell) => line(cell, places)))),
  ].join('\n');
}

function line(parts: Line, places: Places): string {
  return parts.map((part) => inline(part, places)).join('');
}

function inline(part: Inline, places: Places): string {
  if (typeof part === 'string') return escapeMarkdown(part);
  switch (part.kind) {
    case 'strong':
      return `**${escapeMarkdown(part.text)}**`;
    case 'code':
      return markdownCode(part.text);
    case 'quoted':
      return escapeMarkdown(part.text);
    case 'link':
      return `[${escapeMarkdown(part.text)}](#${anchorOf(part, places)})`;
    case 'blank':
      return '\\_'.repeat(30);
  }
}

/** As the usual renderers name a heading: small letters, no marks, hyphens for spaces. */
function anchorOf({ to }: Link, { headings }: Places): string {
  return (headings.get(to) ?? to)
    .toLowerCase()
    .replace(/[^\p{L}\p{N} -]/gu, '')
    .replaceAll(' ', '-');
}
