import type { Block, Figure, Inline, Line, ReportDocument, Section, Table } from '../document.js';
import { escapeMarkdown, markdownCode } from './escape-markdown.js';

/** The report as Markdown: each chart as its description, everything else as it stands. */
export function toMarkdown(report: ReportDocument): string {
  const figures = new Map<Figure, number>();
  const parts = [
    `# ${inline(report.title)}`,
    escapeMarkdown(report.kicker),
    ...report.sections.map((section) => sectionText(section, figures)),
  ];
  return `${parts.join('\n\n')}\n`;
}

function sectionText(section: Section, figures: Map<Figure, number>): string {
  return [`## ${escapeMarkdown(section.heading)}`, ...section.blocks.map((block) => blockText(block, figures))].join(
    '\n\n',
  );
}

function blockText(block: Block, figures: Map<Figure, number>): string {
  switch (block.kind) {
    case 'subheading':
      return `### ${escapeMarkdown(block.text)}`;
    case 'paragraph':
      return block.role === undefined ? line(block.line) : `> ${line(block.line)}`;
    case 'list':
      return block.items.map((item) => `- ${line(item)}`).join('\n');
    case 'command':
      return ['```sh', block.text, '```'].join('\n');
    case 'table':
      return table(block);
    case 'figure':
      figures.set(block, figures.size + 1);
      return [
        `**Figure ${figures.size}.** ${escapeMarkdown(block.caption)}`,
        ...block.charts.map((chart) => `*In words:* ${escapeMarkdown(chart.description)}`),
      ].join('\n\n');
  }
}

function table(block: Table): string {
  const row = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [
    `**${escapeMarkdown(block.caption)}**`,
    '',
    row(block.columns.map((column) => escapeMarkdown(column.header))),
    row(block.columns.map((column) => (column.look === 'number' ? '---:' : '---'))),
    ...block.rows.map((cells) => row(cells.map(line))),
  ].join('\n');
}

function line(parts: Line): string {
  return parts.map(inline).join('');
}

function inline(part: Inline): string {
  if (typeof part === 'string') return escapeMarkdown(part);
  switch (part.kind) {
    case 'strong':
      return `**${escapeMarkdown(part.text)}**`;
    case 'code':
      return markdownCode(part.text);
    case 'quoted':
      return escapeMarkdown(part.text);
  }
}
