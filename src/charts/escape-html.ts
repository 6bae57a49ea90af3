import { displayText } from '../words/display-text.js';

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text for the body or for a quoted attribute of an HTML page. */
export function escapeHtml(text: string): string {
  return displayText(text).replace(/[&<>"']/g, (character) => entities[character] ?? '');
}
