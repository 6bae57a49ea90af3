import type { Node } from 'jsonc-parser';
import type { Problem } from '../../trial/index.js';
import type { Table } from '../folder/table.js';
import { quoted } from '../quoted.js';
import type { JsonDocument } from './json-document.js';

/** A key on the way from rows to a tree: what stands below it, or its answer. */
interface Draft {
  readonly row: number;
  readonly path: string;
  readonly below: Map<string, Draft>;
  answer?: string;
  /** Headings and names of sheets below it, which are never places in a list. */
  readonly holdsNames: boolean;
}

/**
 * The plan as a table, `key` and `answer`: the same tree as `protocol.json` has, so that it is read and checked by the same code. Keys are
 * dotted (`outcome.unit`, `arms.1.arm`); a key without an answer is as good as not there.
 *
 * @returns nothing where no row has a key and an answer.
 */
export function planDocument(table: Table, format: string, problems: Problem[]): JsonDocument | undefined {
  const root: Draft = { row: 0, path: '', below: new Map(), holdsNames: false };
  const file = table.place;
  const unanswered = new Map<string, number>();
  for (const row of table.rows) {
    const cell = (column: string) => row.cells[table.columns.get(column) ?? -1] ?? '';
    const [key, answer] = [cell('key'), cell('answer')];
    if (answer === '' && key !== '') unanswered.set(segmentsOf(key).join('.'), row.row);
    if (answer === '') continue;
    const at = { file, row: row.row, column: 'key' };
    if (key === '') problems.push({ ...at, found: 'an answer without a key', expected: 'the key that it answers' });
    else place(root, key, answer, row.row, (found, expected) => problems.push({ ...at, found, expected }));
  }
  if (root.below.size === 0) {
    problems.push({ file, found: 'no row with a key and an answer', expected: 'the plan, a key and its answer a row' });
    return undefined;
  }
  if (!root.below.has('format')) leafOf(root, 'format', 0).answer = format;
  const keys = new Set<Node>();
  return {
    root: nodeOf(root, keys),
    sourceOf: (node) => quoted(String(node.value ?? '')),
    numberAt: (node) => numberIn(node.value),
    flagAt: (node) => flags.get(String(node.value).toLowerCase()),
    // A list of one, or of several words with commas between them, in one cell.
    entriesAt: (node) => (node.type === 'array' ? (node.children ?? []) : wordsOf(node)),
    refuse(node, path, { found, expected, ...problem }) {
      const key = dotted(path);
      const isAbsent = found.startsWith('no key ');
      const blank = isAbsent ? firstBelow(unanswered, key) : undefined;
      if (blank !== undefined) {
        const [asked, row] = blank;
        problems.push({
          file,
          row,
          column: 'answer',
          found: `no answer to ${asked}`,
          expected: inCells(expected, key),
          ...problem,
        });
        return;
      }
      const isAnswer = !isAbsent && !keys.has(node) && node.type !== 'object';
      problems.push({
        file,
        ...(node.offset === 0 || node.type === 'object' ? {} : { row: node.offset }),
        column: isAnswer ? 'answer' : 'key',
        found: isAbsent ? `no key ${quoted(key)}` : isAnswer || node.type === 'object' ? `${found} for ${key}` : found,
        expected: inCells(expected, key),
        ...problem,
      });
    },
  };
}

const flags: ReadonlyMap<string, boolean> = new Map([
  ['yes', true],
  ['true', true],
  ['no', false],
  ['false', false],
]);

/** The first row without an answer whose key is this one or stands below it. */
function firstBelow(unanswered: ReadonlyMap<string, number>, key: string): readonly [string, number] | undefined {
  return [...unanswered].find(([asked]) => asked === key || asked.startsWith(`${key}.`));
}

/** A number with either decimal mark; `1,200` could be two numbers and is none. */
function numberIn(value: unknown): number | undefined {
  const text = String(value).replace('\u2212', '-');
  if (/^[+-]?[1-9]\d{0,2},\d{3}$/.test(text) || !/^[+-]?\d+(?:[.,]\d+)?$/.test(text)) return undefined;
  return Number(text.replace(',', '.'));
}

function wordsOf(node: Node): Node[] {
  if (node.type !== 'string') return [];
  return String(node.value)
    .split(/[,;]/)
    .map((word) => word.trim())
    .filter((word) => word !== '')
    .map((value): Node => ({ type: 'string', offset: node.offset, length: 0, value }));
}

/** `arms[0].role` as it is written in a plan, `arms.1.role`. */
function dotted(path: string): string {
  return path.replace(/\[(\d+)\]/g, (_, index: string) => `.${Number(index) + 1}`);
}

/** What is said of a text in JSON, without its quotes and braces. */
function inCells(expected: string, key: string): string {
  if (expected === 'true or false, without quotes') return 'yes or no';
  return expected
    .replace(/, each \{ "(\w+)": …, "(\w+)": … \}/, `, in rows such as ${key}.1.$1 and ${key}.1.$2`)
    .replace(/, an? (?:text|name) in quotes| in quotes/g, '')
    .replace(/an object with the keys? /, 'rows for ')
    .replace(/^"([^"]*)"$/, '$1');
}

function place(
  root: Draft,
  key: string,
  answer: string,
  row: number,
  refuse: (found: string, expected: string) => void,
): void {
  const segments = segmentsOf(key);
  let draft = root;
  for (const segment of segments.slice(0, -1)) {
    draft = leafOf(draft, segment, row);
    if (draft.answer !== undefined) {
      refuse(`${quoted(key)} below ${quoted(draft.path)}, which has an answer itself`, 'an answer to one of the two');
      return;
    }
  }
  const last = segments.at(-1) ?? '';
  const known = draft.below.get(last);
  if (known !== undefined) {
    const found = known.answer === undefined ? `${quoted(key)} above keys of its own` : `the key ${quoted(key)} twice`;
    refuse(found, known.answer === undefined ? 'an answer to one of the two' : 'it once');
    return;
  }
  leafOf(draft, last, row).answer = answer;
}

/** A heading and the name of a sheet may hold dots of their own. */
function segmentsOf(key: string): readonly string[] {
  const parts = key.split('.').map((part) => part.trim());
  const names = parts[0] === 'columns' ? 2 : parts[0] === 'sheets' ? 1 : parts.length - 1;
  return [...parts.slice(0, names), key.split('.').slice(names).join('.').trim()];
}

function leafOf(above: Draft, key: string, row: number): Draft {
  const known = above.below.get(key);
  if (known !== undefined) return known;
  const path = above.path === '' ? key : `${above.path}.${key}`;
  const holdsNames = above.holdsNames || path === 'columns' || path === 'sheets';
  const added: Draft = { row, path, below: new Map(), holdsNames };
  above.below.set(key, added);
  return added;
}

function nodeOf(draft: Draft, keys: Set<Node>): Node {
  if (draft.answer !== undefined) return { type: 'string', offset: draft.row, length: 0, value: draft.answer };
  const below = [...draft.below];
  const isList = !draft.holdsNames && below.length > 0 && below.every(([key]) => /^[1-9]\d*$/.test(key));
  if (isList) {
    const inOrder = below.sort(([one], [other]) => Number(one) - Number(other));
    const children = inOrder.map(([, one]) => nodeOf(one, keys));
    return { type: 'array', offset: draft.row, length: 0, children };
  }
  const children = below.map(([key, one]): Node => {
    const keyNode: Node = { type: 'string', offset: one.row, length: 0, value: key };
    keys.add(keyNode);
    return { type: 'property', offset: one.row, length: 0, children: [keyNode, nodeOf(one, keys)] };
  });
  return { type: 'object', offset: draft.row, length: 0, children };
}
