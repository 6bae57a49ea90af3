import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

/** A function with the examples of its doc comment, line by line. */
export interface DocumentedFunction {
  readonly name: string;
  readonly file: string;
  readonly examples: readonly (readonly string[])[];
}

/** A part of an example: code that runs, and what the comment behind it says comes out; no comment, no value to check. */
export interface ExamplePart {
  readonly code: string;
  readonly stated?: string;
}

const root = resolve(import.meta.dirname, '../..');

/** The exported functions of every module in src, by name. */
export function documentedFunctions(): ReadonlyMap<string, readonly DocumentedFunction[]> {
  const byName = new Map<string, DocumentedFunction[]>();
  for (const file of readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })) {
    if (!file.endsWith('.ts')) continue;
    const source = readFileSync(join(root, 'src', file), 'utf8');
    const declared = source.matchAll(/(?:\/\*\*((?:[^*]|\*(?!\/))*)\*\/\n)?export (?:async )?function (\w+)/g);
    for (const [, comment = '', name = ''] of declared) {
      byName.set(name, [...(byName.get(name) ?? []), { name, file: `src/${file}`, examples: examplesOf(comment) }]);
    }
  }
  return byName;
}

/** An example may stand behind its tag or below it, and ends with the next tag. */
function examplesOf(comment: string): readonly (readonly string[])[] {
  const lines = comment.split('\n').map((line) => line.replace(/^\s*\* ?/, '').trimEnd());
  const tags = lines.join('\n').split(/^@/m).slice(1);
  const examples = tags.filter((tag) => tag.startsWith('example'));
  return examples.map((tag) => tag.slice('example'.length).trim().split('\n'));
}

/** A comment at the end of a line states the value of the expression that ends there; a semicolon ends any other part. */
export function partsOf(example: readonly string[]): readonly ExamplePart[] {
  const parts: ExamplePart[] = [];
  let lines: string[] = [];
  for (const line of example) {
    const [, code = line, stated] = /^(.*?)\s+\/\/ (.*)$/.exec(line) ?? [];
    lines.push(code);
    if (stated !== undefined) parts.push({ code: lines.join('\n'), stated });
    else if (code.endsWith(';')) parts.push({ code: lines.join('\n') });
    else continue;
    lines = [];
  }
  return lines.length === 0 ? parts : [...parts, { code: lines.join('\n') }];
}

/** What the examples of a face take as given: the code that stands in its comment, indented, below the line that begins so. */
export function givenOf(face: string): readonly string[] {
  const [, given = ''] = readFileSync(join(root, face), 'utf8').split('// Given in the examples of the doc comments');
  return [...given.split('\n\n')[0]!.matchAll(/^\/\/ {3}(.*)$/gm)].map(([, line = '']) => line);
}
