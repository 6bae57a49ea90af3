import type { Problem } from '../../trial/index.js';

type Fault = Omit<Problem, 'file'>;

/**
 * The text of a file: UTF-8 with or without a byte-order mark, any line ends (they come out as `\n`), letters with accents
 * in their composed form, so that a name typed on one machine equals the same name typed on another.
 *
 * @param content - what the file should have held, for the message when it does not.
 * @returns nothing when the bytes are no such text; the reason is then among the problems.
 */
export function decodeText(file: string, bytes: Uint8Array, content: string, problems: Problem[]): string | undefined {
  const decoded = otherKind(bytes, content) ?? decode(bytes, content);
  if (typeof decoded === 'string') return decoded;
  problems.push({ file, ...decoded });
  return undefined;
}

function decode(bytes: Uint8Array, content: string): string | Fault {
  const text = new TextDecoder('utf-8').decode(bytes);
  if (text.trim() === '') return { found: 'an empty file', expected: content };
  const control = text.search(controlCharacter);
  if (control !== -1) {
    return { row: lineOf(text, control), found: 'binary data', expected: `text in UTF-8: ${content}` };
  }
  const undecodable = text.indexOf('\uFFFD');
  if (undecodable !== -1) {
    return {
      row: lineOf(text, undecodable),
      found: 'a letter in another encoding than UTF-8',
      expected: 'text in UTF-8 (in a spreadsheet program, save as "CSV UTF-8")',
    };
  }
  const lines = text.includes('\r') ? text.replace(/\r\n?/g, '\n') : text;
  // As many letters as bytes: nothing but ASCII.
  return text.length === bytes.length ? lines : lines.normalize('NFC');
}

// Tab, line feed, vertical tab, form feed and carriage return do occur in text files.
const controlCharacter = /(?![\t\n\v\f\r])\p{Cc}/u;

function otherKind(bytes: Uint8Array, content: string): Fault | undefined {
  const kind = beginnings.find(({ start }) => start.every((byte, index) => bytes[index] === byte));
  return kind === undefined ? undefined : { found: kind.found, expected: `text in UTF-8: ${content}` };
}

const beginnings = [
  { start: [0xff, 0xfe], found: 'text in UTF-16 ("Unicode text")' },
  { start: [0xfe, 0xff], found: 'text in UTF-16 ("Unicode text")' },
  { start: [0x50, 0x4b, 3, 4], found: 'a workbook or another packed file under this name' },
  { start: [0xd0, 0xcf, 0x11, 0xe0], found: 'a workbook of the older kind (.xls) under this name' },
  { start: [0x25, 0x50, 0x44, 0x46], found: 'a PDF under this name' },
];

function lineOf(text: string, offset: number): number {
  return text.slice(0, offset).split(/\r\n?|\n/).length;
}
