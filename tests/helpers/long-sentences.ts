import type { Block, Line, ReportDocument } from '../../src/report/document.js';

/** Words of our own in a sentence, at most. Numbers are no words, and what the folder brought counts as one. */
const mostWords = 30;

/** Sentences of a document that have more words than anybody takes in at once, each with the section that prints it. */
export function longSentencesIn({ sections }: ReportDocument): readonly string[] {
  return sections.flatMap(({ id, blocks }) =>
    blocks
      .flatMap(textsOf)
      .flatMap(longSentences)
      .map((sentence) => `${id}: ${sentence}`),
  );
}

/** The same of one text; `\0` stands for what is put in and counts as a word. */
export function longSentences(text: string): readonly string[] {
  return sentencesOf(text).filter((sentence) => partsOf(sentence).some((part) => countWords(part) > mostWords));
}

function sentencesOf(text: string): readonly string[] {
  return text.split(/(?<=[.!?][”)]?\0?)\s+(?=[“"(]?[\p{Lu}\d\0]|[“(]\p{Ll})/u);
}

/** A list behind a colon is read entry by entry, as is one of more than two entries without; what stands in brackets, by itself. */
function partsOf(whole: string): readonly string[] {
  const asides = [...whole.matchAll(/\(([^()]*)\)/g)].map(([, aside = '']) => aside);
  const sentence = whole.replaceAll(/ \([^()]*\)/g, '');
  return [...asides, ...entriesOf(sentence)];
}

function entriesOf(sentence: string): readonly string[] {
  const entries = sentence.split('; ');
  const [head = '', ...tail] = sentence.split(': ');
  if (entries.length > 2) return sentence.split(/[:;] /);
  return entries.length > 1 && tail.join(': ').includes('; ') ? [head, ...tail.join(': ').split('; ')] : [sentence];
}

function countWords(text: string): number {
  return text.split(/\s+/).filter((word) => /[\p{L}\0]/u.test(word)).length;
}

/** Descriptions of pictures list what the picture shows, and are left out. */
function textsOf(block: Block): readonly string[] {
  switch (block.kind) {
    case 'paragraph':
      return [wordsOf(block.line)];
    case 'list':
      return block.items.map(wordsOf).map(withoutLabel);
    case 'terms':
      return block.items.map(({ line }) => withoutLabel(wordsOf(line)));
    case 'table':
      return [block.caption, ...block.rows.flatMap((row) => row.map(wordsOf))];
    case 'figure':
    case 'photograph':
      return [block.caption];
    case 'subheading':
      return [block.text];
    case 'command':
    case 'contents':
      return [];
  }
}

/** Of an entry the name before the first colon is a heading. */
function withoutLabel(text: string): string {
  return text.replace(/^[^.:]*: /, 'Q: ');
}

function wordsOf(line: Line): string {
  return line
    .map((part) => {
      if (typeof part === 'string') return part;
      return part.kind === 'quoted' ? quotedWords(part.text) : part.kind === 'blank' ? '' : part.text;
    })
    .join('');
}

/** Verdict and threats are set apart because they hold words of the folder, and are ours for all that: a name has no stop. */
function quotedWords(text: string): string {
  return /\.$/.test(text) ? `. ${text}` : 'Q';
}
