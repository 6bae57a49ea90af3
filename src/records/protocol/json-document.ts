import jsonc, { type Node, type ParseError } from 'jsonc-parser';
import type { Problem } from '../../trial/index.js';
import { quoted } from '../quoted.js';

/** A plan with the line of everything in it: a JSON text, or a table of keys and answers. */
export interface JsonDocument {
  readonly root: Node;
  /** A value as it is written. */
  sourceOf(node: Node): string;
  /** The number, or true or false, that a value is; anything else where it is none. */
  numberAt(node: Node): unknown;
  flagAt(node: Node): unknown;
  /** The entries of a list; none of what is no list. */
  entriesAt(node: Node): readonly Node[];
  /** Notes what is wrong at a place: its line as the row, the path of its key as the column (`arms[1].role`). */
  refuse(node: Node, path: string, problem: Pick<Problem, 'found' | 'expected' | 'suggestion'>): void;
}

/**
 * Parses strict JSON: no comments, no trailing commas, no key twice in an object.
 *
 * @returns nothing when the text is no JSON; every fault is then among the problems, by line and character.
 */
export function jsonDocument(file: string, text: string, problems: Problem[]): JsonDocument | undefined {
  const lineOf = lineFinder(text);
  const errors: ParseError[] = [];
  const root = parse(text, errors);
  if (root === undefined || errors.length > 0 || !isJson(text)) {
    problems.push(...syntaxProblems(file, text, errors.slice(0, mostSyntaxErrors), lineOf));
    return undefined;
  }
  return {
    root,
    sourceOf: ({ offset, length }) => text.slice(offset, offset + length),
    numberAt: ({ value }) => value,
    flagAt: ({ value }) => value,
    entriesAt: ({ type, children = [] }) => (type === 'array' ? children : []),
    refuse(node, path, problem) {
      problems.push({ file, row: lineOf(node.offset), ...(path === '' ? {} : { column: path }), ...problem });
    },
  };
}

// What is no JSON at all has an error a word, and they say the same thing over and over.
const mostSyntaxErrors = 10;

/** The line of an offset, from 1. */
function lineFinder(text: string): (offset: number) => number {
  const ends = [...text.matchAll(/\n/g)].map(({ index }) => index);
  return (offset) => {
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((ends[middle] ?? 0) < offset) low = middle + 1;
      else high = middle;
    }
    return low + 1;
  };
}

/** The parser is recursive: thousands of nested brackets exhaust the stack, and are no protocol. */
function parse(text: string, errors: ParseError[]): Node | undefined {
  try {
    return jsonc.parseTree(text, errors, { disallowComments: true, allowTrailingComma: false });
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

function syntaxProblems(
  file: string,
  text: string,
  errors: readonly ParseError[],
  lineOf: (offset: number) => number,
): Problem[] {
  const first = errors[0];
  if (first === undefined) return [{ file, found: 'a text that is not JSON', expected: 'one JSON object, { … }' }];
  // What follows the first fault in a line is mostly its consequence.
  const firstOfLine = errors.filter(
    (error, index) => index === 0 || lineOf(error.offset) !== lineOf(errors[index - 1]?.offset ?? 0),
  );
  return firstOfLine.map((error) => ({
    file,
    row: lineOf(error.offset),
    column: String(error.offset - text.lastIndexOf('\n', error.offset - 1)),
    found: foundAt(text, error),
    expected: syntaxExpectations[jsonc.printParseErrorCode(error.error)] ?? 'JSON',
  }));
}

function foundAt(text: string, error: ParseError): string {
  if (error.offset >= text.trimEnd().length) return 'the end of the file (it may have been cut off)';
  const piece = text.slice(error.offset, error.offset + Math.max(error.length, 1));
  return piece.startsWith('"') && piece.length < 40 ? piece : quoted(piece);
}

const syntaxExpectations: Record<string, string> = {
  InvalidSymbol: 'JSON: a text in double quotes, a number, true or false',
  InvalidNumberFormat: 'a number with a decimal point',
  PropertyNameExpected: 'a key in double quotes (and no comma before a closing brace)',
  ValueExpected: 'a value (and no comma before a closing bracket)',
  ColonExpected: 'a colon after the key',
  CommaExpected: 'a comma before the next entry',
  CloseBraceExpected: 'a closing brace }',
  CloseBracketExpected: 'a closing bracket ]',
  EndOfFileExpected: 'nothing more after the closing brace',
  InvalidCommentToken: 'no comments (JSON has none)',
  UnexpectedEndOfComment: 'no comments (JSON has none)',
  UnexpectedEndOfString: 'a closing double quote on the same line',
  UnexpectedEndOfNumber: 'a whole number or a decimal',
  InvalidUnicode: 'four hexadecimal digits after \\u',
  InvalidEscapeCharacter: 'a backslash only before one of " \\ / b f n r t u',
  InvalidCharacter: 'no tabs or line ends inside a text',
};
