import { readdirSync, readFileSync } from 'node:fs';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { checkDocument } from '../../src/checking/report/check-document.js';
import { besideOf } from '../../src/command/beside-of.js';
import { reportDocument } from '../../src/report/report-document.js';
import { bundledOpinion, bundledTrial, bundledTrials } from '../helpers/bundled-opinions.js';
import { longSentences, longSentencesIn } from '../helpers/long-sentences.js';
import { swept } from '../helpers/sweep.js';

describe('no sentence has more than 30 words of our own', () => {
  it.each(swept(bundledTrials, (_, at) => at % 4 === 0))(
    'in the report and in what was understood of %s',
    { timeout: 120_000 },
    async (name) => {
      const [trial, opinion] = [await bundledTrial(name), await bundledOpinion(name)];
      expect(longSentencesIn(reportDocument(opinion, besideOf(trial, opinion)))).toEqual([]);
      expect(longSentencesIn(checkDocument(trial, 'text'))).toEqual([]);
    },
  );

  // What no bundled trial brings to print stands in the sources.
  it.each(['report', 'labels', 'opinion', 'papers/page', 'checking/report'])('in any text of src/%s', (room) => {
    const files = readdirSync(`src/${room}`, { recursive: true, encoding: 'utf8' }).filter((file) =>
      /\.ts$/.test(file),
    );
    expect(files.length).toBeGreaterThan(5);
    const long = files.flatMap((file) => {
      const texts = textsIn(readFileSync(`src/${room}/${file}`, 'utf8'));
      return texts.flatMap(longSentences).map((sentence) => `${file}: ${sentence.replaceAll('\0', '…')}`);
    });
    expect(long).toEqual([]);
  });
});

/** Strings and templates, with `\0` for what is put in. */
function textsIn(source: string): readonly string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) found.push(node.text);
    if (ts.isTemplateExpression(node))
      found.push([node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join('\0'));
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile('one.ts', source, ts.ScriptTarget.Latest, true));
  return found;
}

describe('longSentences(text)', () => {
  const words = (count: number) => Array.from({ length: count }, () => 'word').join(' ');

  it('takes 30 words and not 31; numbers are none', () => {
    expect(longSentences(`${words(30)} 12 4.5.`)).toEqual([]);
    expect(longSentences(`${words(31)}.`)).toHaveLength(1);
    expect(longSentences(`${words(20)}. Then ${words(20)}. “and” ${words(20)}.`)).toEqual([]);
  });

  it('reads a list behind a colon entry by entry, and two halves of a sentence as one', () => {
    expect(longSentences(`Left: ${words(25)}; ${words(25)}.`)).toEqual([]);
    expect(longSentences(`Left: ${words(25)}; ${words(31)}.`)).toHaveLength(1);
    expect(longSentences(`${words(16)}; ${words(16)}.`)).toHaveLength(1);
    expect(longSentences(`${words(16)}: ${words(16)}.`)).toHaveLength(1);
    expect(longSentences(`${words(16)} (${words(16)}).`)).toEqual([]);
    expect(longSentences(`${words(16)} (${words(31)}).`)).toHaveLength(1);
  });
});
