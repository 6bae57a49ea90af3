// Controls, characters that hide text or reorder it (but not the joiners that scripts and emoji need), separators of lines, halves of pairs, private use.
const invisible = /(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Zl}\p{Zp}]/gu;

/**
 * Text from a trial folder as it may be shown: runs of spaces and line breaks become one space, and every character that
 * cannot be seen or that would reorder its surroundings is written out as its code point.
 *
 * @example displayText('north\nwall\u202e') // 'north wall‹U+202E›'
 */
export function displayText(text: string): string {
  return text.replace(/[ \t\r\n\f\v]+/g, ' ').replace(invisible, codePoint);
}

function codePoint(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  return `‹U+${code.toString(16).toUpperCase().padStart(4, '0')}›`;
}
