import { readdirSync, readFileSync } from 'node:fs';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

/** Rooms that compute: what they find is told in words by `src/labels/` and `src/report/words/`. */
const rooms = ['moisture', 'drying', 'analysis', 'findings'];
const files = rooms.flatMap((room) =>
  readdirSync(`src/${room}`, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => `src/${room}/${file}`),
);

/** Its limits explain themselves. */
const explains = 'src/findings/limits.ts';

/** Units, and terms of a regression: names, however many words they have. */
const names = [
  ...['share of the effect', 'units of the instrument', 'log₁₀ of the index', '(0 dry at once, 1 stays wet)'],
  ...['cosine of the year', 'sine of the year'],
  ...['gypsum (calcium sulfate dihydrate)', 'epsomite (magnesium sulfate heptahydrate)'],
  'mirabilite (sodium sulfate decahydrate)',
];

/** More than three words are a phrase; what a template puts in counts as a word, beside three of its own. */
function isPhrase(text: string): boolean {
  const words = text.split(/\s+/).filter((word) => /\p{L}|\0/u.test(word));
  return words.length > 3 && words.filter((word) => /\p{L}/u.test(word)).length > 2;
}

/** Where words are for programmers (errors, and what is handed to `check…`) or name a publication. */
function isElsewhere(node: ts.Node): boolean {
  if (ts.isThrowStatement(node) || ts.isImportDeclaration(node)) return true;
  if (ts.isNewExpression(node)) return /Error$/.test(node.expression.getText());
  if (ts.isCallExpression(node)) return /^check/.test(node.expression.getText());
  return ts.isPropertyAssignment(node) && node.name.getText() === 'document';
}

/** Literals that hold a phrase, unless they stand, or are named, where words are for programmers or name a publication. */
function phrasesIn(text: string): readonly string[] {
  const tree = ts.createSourceFile('one.ts', text, ts.ScriptTarget.Latest, true);
  const named = new Set<string>();
  const collect = (node: ts.Node, inside: boolean): void => {
    if (inside && ts.isIdentifier(node)) named.add(node.text);
    ts.forEachChild(node, (child) => collect(child, inside || isElsewhere(node)));
  };
  collect(tree, false);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (isElsewhere(node) || (ts.isVariableDeclaration(node) && isTextOf(node, named))) return;
    const words = wordsOf(node);
    if (words !== undefined && isPhrase(words) && !names.includes(words)) found.push(words);
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}

/** A text that is given a name and used by that name where words are for programmers. */
function isTextOf({ name, initializer }: ts.VariableDeclaration, named: ReadonlySet<string>): boolean {
  const isText =
    initializer !== undefined && (wordsOf(initializer) !== undefined || ts.isConditionalExpression(initializer));
  return isText && ts.isIdentifier(name) && named.has(name.text);
}

function wordsOf(node: ts.Node): string | undefined {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return undefined;
  return [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join('\0');
}

describe('what computes holds facts, and no words of a report', () => {
  it.each(files.filter((file) => file !== explains))('%s', (file) => {
    expect(phrasesIn(readFileSync(file, 'utf8'))).toEqual([]);
  });

  it('finds a phrase in a string, in a template and in a type', () => {
    expect(phrasesIn("const a = 'no wall was read';")).toHaveLength(1);
    expect(phrasesIn('const a = `there are $' + '{count} walls left`;')).toHaveLength(1);
    expect(phrasesIn("type A = 'the loss slows down' | 'none';")).toHaveLength(1);
    expect(phrasesIn("f({ reason: 'the plan states no windows' });")).toHaveLength(1);
  });

  it('passes over codes, units, keys, and what is for programmers or names a publication', () => {
    expect(phrasesIn("const a = ['% by mass', 'treated after', 'left-in-place'];")).toEqual([]);
    expect(phrasesIn('const key = `$' + '{a} $' + '{b} $' + '{c} $' + '{d}`;')).toEqual([]);
    expect(phrasesIn("throw new StatisticsError('f', 'too-few', 'needs walls to spare here');")).toEqual([]);
    expect(
      phrasesIn("const detail = 'needs walls to spare here'; throw new MoistureError('f', 'too-few', detail);"),
    ).toEqual([]);
    expect(phrasesIn("checkFinite(where, 'standard deviation within the wall', 1);")).toEqual([]);
    expect(phrasesIn("const a = { document: 'ISO 12570, as quoted by others' };")).toEqual([]);
  });

  it('is not deceived by a text that is named and not for programmers', () => {
    expect(phrasesIn("const detail = 'needs walls to spare here'; f(detail);")).toHaveLength(1);
  });
});
