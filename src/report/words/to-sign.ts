import type { Block, Inline, Line, Section } from '../document.js';

/**
 * A section for somebody to sign: nobody vouches for a figure that was only remembered, so that its mark says what it is worth to the
 * reader. `opinion.json` keeps the mark itself.
 */
export function toSign({ blocks, ...section }: Section): Section {
  return { ...section, blocks: blocks.map(blockToSign) };
}

function blockToSign(block: Block): Block {
  switch (block.kind) {
    case 'paragraph':
      return { ...block, line: block.line.map(inlineToSign) };
    case 'list':
      return { ...block, items: block.items.map(lineToSign) };
    case 'terms':
      return { ...block, items: block.items.map(({ term, line }) => ({ term, line: lineToSign(line) })) };
    case 'table':
      return { ...block, rows: block.rows.map((cells) => cells.map(lineToSign)) };
    case 'subheading':
    case 'command':
    case 'contents':
    case 'photograph':
    case 'figure':
      return block;
  }
}

function lineToSign(line: Line): Line {
  return line.map(inlineToSign);
}

function inlineToSign(part: Inline): Inline {
  if (typeof part === 'string') return textToSign(part);
  return part.kind === 'quoted' ? { ...part, text: textToSign(part.text) } : part;
}

/** A year, or a body that publishes standards. */
const source = /\b(?:1[89]|20)\d\d\b|\b(?:ISO|EN|DIN|WTA|ASTM)\b/;
const mark = /(?<opening> \(|[;,] |)from memory(?:, weak)?(?<closing>\)|)/g;

/** A source that is named stands by itself; where none is, that is said. */
function textToSign(text: string): string {
  return text.replace(mark, (whole, opening: string, closing: string, at: number) => {
    const clause =
      text
        .slice(0, at)
        .split(opening === ' (' ? /[.;] / : /[.;] |\(/)
        .at(-1) ?? '';
    if (source.test(clause)) return opening === ' (' ? '' : closing;
    return whole.replace(/from memory(?:, weak)?/, 'common practice, no source');
  });
}
