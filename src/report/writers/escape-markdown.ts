import { displayText } from '../../words/display-text.js';

/** Text for a paragraph, a list item or a table cell of a Markdown file: it comes out as it is, whatever it holds. */
export function escapeMarkdown(text: string): string {
  return (
    displayText(text)
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      .replace(/[\\`*_[\]{}|~#$!@]/g, '\\$&')
      .replace(/:(?=\/)/g, '\\:')
      .replace(/www\./gi, (match) => `${match.slice(0, 3)}\\.`)
      // What opens a list, a rule or an underlined heading at the start of a line.
      .replace(/^(\s*)(?=[-+](?:\s|$)|--|=)/, '$1\\')
      .replace(/^(\s*\d+)(?=[.)](?:\s|$))/, '$1\\')
  );
}

/** Text between backticks, as many as it takes, for a table cell: a bar is escaped, which only a table takes back. */
export function markdownCode(text: string): string {
  const shown = displayText(text).replaceAll('|', '\\|');
  const longest = Math.max(0, ...[...shown.matchAll(/`+/g)].map((run) => run[0].length));
  const fence = '`'.repeat(longest + 1);
  const pad = longest > 0 ? ' ' : '';
  return `${fence}${pad}${shown}${pad}${fence}`;
}
