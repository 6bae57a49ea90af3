import fc from 'fast-check';
import type { FolderFiles } from './valid-folder.js';

/** One accident that may befall a file of a trial folder. */
type Accident = (content: Uint8Array) => Uint8Array;

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const text = (content: Uint8Array): string => new TextDecoder().decode(content);

/** What may stand in a cell or a JSON value that does not belong there. */
const junk: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom(
    ...[
      '',
      ' ',
      'NA',
      'NaN',
      'Infinity',
      '-1e999',
      '1e400',
      '1e308',
      '5e-324',
      '0',
      '-0',
      '-1',
      '0x1F',
      '1_000',
      '<',
      '<0.5',
      '<NaN',
    ],
    ...['1,5', '1.234,5', '1,234.5', '٣', '−5', '5%', '2024-02-30', '0000-00-00', '9999-99-99', '2024-03-01T25:00'],
    ...['yes', 'treated', 'unknown', 'w1', 'constructor', '__proto__', 'toString', '<script>', '=1/0', '#DIV/0!'],
    ...['"', '""', '"a', ';', ',', '\t', '\n', '\r', '\0', '\uFEFF', '\u2028', '💧', 'null', '[]', '{}', 'true'],
  ),
  fc.string({ maxLength: 12 }),
  fc.double().map(String),
);

/** Changes one line of a text; the line is chosen by a fraction of their number. */
function atLine(where: number, change: (line: string, lines: string[], index: number) => string[]): Accident {
  return (content) => {
    const lines = text(content).split('\n');
    const index = Math.min(lines.length - 1, Math.floor(where * lines.length));
    lines.splice(index, 1, ...change(lines[index] ?? '', lines, index));
    return bytes(lines.join('\n'));
  };
}

function atCell(where: number, cell: number, change: (cells: string[], index: number) => void): Accident {
  return atLine(where, (line) => {
    const cells = line.split(',');
    change(cells, Math.floor(cell * cells.length));
    return [cells.join(',')];
  });
}

const fraction = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });

const accident: fc.Arbitrary<Accident> = fc.oneof(
  fc.tuple(fraction, fc.integer({ min: 0, max: 255 })).map(
    ([where, byte]): Accident =>
      (content) => {
        const copy = Uint8Array.from(content);
        if (copy.length > 0) copy[Math.floor(where * copy.length)] = byte;
        return copy;
      },
  ),
  fraction.map(
    (where): Accident =>
      (content) =>
        content.slice(0, Math.floor(where * content.length)),
  ),
  fraction.map(
    (where): Accident =>
      (content) =>
        content.slice(Math.floor(where * content.length)),
  ),
  fraction.map((where) => atLine(where, () => [])),
  fraction.map((where) => atLine(where, (line) => [line, line])),
  fc
    .tuple(fraction, fraction)
    .map(([where, from]) => atLine(where, (line, lines) => [line, lines[Math.floor(from * lines.length)] ?? ''])),
  fc.tuple(fraction, fc.string()).map(([where, added]) => atLine(where, (line) => [line, added])),
  fc
    .tuple(fraction, fraction, junk)
    .map(([where, cell, word]) => atCell(where, cell, (cells, index) => cells.splice(index, 1, word))),
  fc.tuple(fraction, fraction).map(([where, cell]) => atCell(where, cell, (cells, index) => cells.splice(index, 1))),
  fc.tuple(fraction, fraction, fraction).map(([first, second, where]) => swapColumns(first, second, where)),
  fc.tuple(fraction, junk).map(([where, word]) => jsonValue(where, word)),
  fc.constantFrom<Accident>(
    () => new Uint8Array(),
    () => bytes('\uFEFF'),
    (content) => bytes(text(content).replaceAll(',', ';')),
    (content) => bytes(text(content).replaceAll('.', ',')),
    (content) => bytes(text(content).replaceAll('\n', '\r')),
    (content) => Uint8Array.from(Buffer.from(text(content), 'utf16le')),
    (content) => bytes(text(content).toUpperCase()),
    (content) => bytes(text(content).repeat(2)),
  ),
);

/** Exchanges two cells: in every line, so that whole columns change places, or in one. */
function swapColumns(first: number, second: number, where: number): Accident {
  const swap = (cells: string[]) => {
    const [a, b] = [Math.floor(first * cells.length), Math.floor(second * cells.length)];
    [cells[a], cells[b]] = [cells[b] ?? '', cells[a] ?? ''];
    return cells.join(',');
  };
  if (where < 0.5) return atLine(where * 2, (line) => [swap(line.split(','))]);
  return (content) =>
    bytes(
      text(content)
        .split('\n')
        .map((line) => swap(line.split(',')))
        .join('\n'),
    );
}

/** Puts a word in the place of a value of a JSON text, as it is or in quotes. */
function jsonValue(where: number, word: string): Accident {
  return (content) => {
    const values = [...text(content).matchAll(/: ?("[^"\n]*"|[\w.]+)/g)];
    const value = values[Math.floor(where * values.length)];
    if (value === undefined) return content;
    const put = where * 1000 - Math.floor(where * 1000) < 0.5 ? word : JSON.stringify(word);
    return bytes(`${text(content).slice(0, value.index)}: ${put}${text(content).slice(value.index + value[0].length)}`);
  };
}

/** A folder in which one to three files have met with one to three accidents each, or are gone, or bear another name. */
export function mangledFolder(files: FolderFiles): fc.Arbitrary<FolderFiles> {
  const names = Object.keys(files);
  const fate = fc.oneof(
    { weight: 12, arbitrary: fc.array(accident, { minLength: 1, maxLength: 3 }).map((accidents) => ({ accidents })) },
    { weight: 1, arbitrary: fc.constant({ gone: true as const }) },
    {
      weight: 1,
      arbitrary: fc
        .constantFrom(...names, 'reading.csv', 'Walls.csv', 'trial.xlsx', 'x.txt')
        .map((renamed) => ({ renamed })),
    },
  );
  return fc.array(fc.tuple(fc.constantFrom(...names), fate), { minLength: 1, maxLength: 3 }).map((fates) => {
    const mangled: Record<string, string | Uint8Array> = { ...files };
    for (const [name, what] of fates) {
      const content = mangled[name];
      if (content === undefined) continue;
      if ('accidents' in what) {
        const start = typeof content === 'string' ? bytes(content) : content;
        mangled[name] = what.accidents.reduce((changed, accident) => accident(changed), start);
      } else {
        delete mangled[name];
        if ('renamed' in what) mangled[what.renamed] = content;
      }
    }
    return mangled;
  });
}
