// Controls, format characters that reorder or hide text, line and paragraph separators, lone surrogates, private use.
const invisible = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Zl}\p{Zp}]/gu;

/**
 * Text from a trial folder as it may be shown: white space collapsed to single spaces, and every character that
 * cannot be seen or that would reorder its surroundings written out as its code point.
 *
 * @example displayText('north\nwall\u202e') // 'north wall‹U+202E›'
 */
export function displayText(text: string): string {
  return text.replace(/\s+/gu, ' ').trim().replace(invisible, codePoint);
}

function codePoint(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  return `‹U+${code.toString(16).toUpperCase().padStart(4, '0')}›`;
}
