import { readdirSync, readFileSync } from 'node:fs';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const source = 'src/analysis';
const files = readdirSync(source, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.ts'));

/** Four words in a row are a phrase; most units, names of terms and codes have fewer. */
const phrase = /\p{L}+[,;:]? \p{L}+[,;:]? \p{L}+[,;:]? \p{L}+/u;

/** Units, and terms of a regression. */
const names = ['share of the effect', 'units of the instrument', 'cosine of the year', 'sine of the year'];

/** Literals that hold a phrase; what a `StatisticsError` tells a programmer is none that a report could show. */
function phrasesIn(text: string): readonly string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isNewExpression(node) && node.expression.getText(tree) === 'StatisticsError') return;
    const isText =
      ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node) || ts.isTemplateExpression(node);
    const words = isText ? node.getText(tree).replace(/\$\{[^}]*\}/g, 'word') : '';
    if (phrase.test(words) && !names.includes(words.slice(1, -1))) found.push(words);
    ts.forEachChild(node, visit);
  };
  const tree = ts.createSourceFile('one.ts', text, ts.ScriptTarget.Latest);
  visit(tree);
  return found;
}

describe('an analysis holds facts, and no words of a report', () => {
  it.each(files)('src/analysis/%s', (file) => {
    expect(phrasesIn(readFileSync(`${source}/${file}`, 'utf8'))).toEqual([]);
  });

  it('finds a phrase in a string and in a template, and passes over errors, codes and units', () => {
    expect(phrasesIn("const a = 'no wall was read';")).toHaveLength(1);
    expect(phrasesIn(`const a = \`there are $\{count} walls left\`;`)).toHaveLength(1);
    expect(phrasesIn("throw new StatisticsError('f', 'too-few', 'needs walls to spare');")).toEqual([]);
    expect(phrasesIn("const a = ['% by mass', 'treated after', 'left-in-place'];")).toEqual([]);
  });
});
