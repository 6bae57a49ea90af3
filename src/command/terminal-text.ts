import { displayText } from '../words/display-text.js';

/**
 * Text as a terminal may be given it: characters that would move its cursor, colour it or hide what stands there are written out by their
 * code point. Line ends and runs of blanks stay.
 *
 * @example terminalText('Verdict:   none\u001b[2J') // 'Verdict:   none‹U+001B›[2J'
 */
export function terminalText(text: string): string {
  return text
    .split(/(\n| {2,})/)
    .map((piece, index) => (index % 2 === 1 ? piece : displayText(piece)))
    .join('');
}
