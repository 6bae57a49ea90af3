import { displayText } from '../../charts/display-text.js';

/** Text for a paragraph, a list item or a table cell of a Markdown file: it comes out as it is, whatever it holds. */
export function escapeMarkdown(text: string): string {
  return displayText(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replace(/[\\`*_[\]{}|~#$!@]/g, '\\$&')
    .replace(/:(?=\/)/g, '\\:')
    .replace(/\bwww\./gi, (match) => `${match.slice(0, 3)}\\.`)
    .replace(/^(\s*)([-+=])/, '$1\\$2')
    .replace(/^(\s*\d+)([.)])/, '$1\\$2');
}

/** Text between backticks: as many as it takes, and no line break. */
export function markdownCode(text: string): string {
  const shown = displayText(text).replaceAll('|', '\\|');
  const longest = Math.max(0, ...[...shown.matchAll(/`+/g)].map((run) => run[0].length));
  const fence = '`'.repeat(longest + 1);
  const pad = longest > 0 ? ' ' : '';
  return `${fence}${pad}${shown}${pad}${fence}`;
}
