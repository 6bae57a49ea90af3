import { describe, expect, it } from 'vitest';
import { paragraph } from '../../../src/report/document.js';
import { toSign } from '../../../src/report/words/to-sign.js';

function signed(text: string): string {
  const [block] = toSign({ id: 'x', heading: 'x', blocks: [paragraph(text)] }).blocks;
  if (block?.kind !== 'paragraph') throw new Error('no paragraph');
  return block.line.join('');
}

describe('toSign(section)', () => {
  it.each([
    ['the usual rule (ISO 12570, from memory) asks', 'the usual rule (ISO 12570) asks'],
    ['Fisher 1935, The Design of Experiments (from memory)', 'Fisher 1935, The Design of Experiments'],
    [
      'at 75.4 % (Greenspan 1977, cubic through its table; from memory, weak)',
      'at 75.4 % (Greenspan 1977, cubic through its table)',
    ],
  ])('lets a source that is named stand by itself: %s', (text, expected) => {
    expect(signed(text)).toBe(expected);
  });

  it.each([
    [
      '25 units (still air indoors; from memory), 100 Pa',
      '25 units (still air indoors; common practice, no source), 100 Pa',
    ],
    [
      'As ISO 12570 has it. Water at 998.2 kg/m³ (from memory).',
      'As ISO 12570 has it. Water at 998.2 kg/m³ (common practice, no source).',
    ],
    ['from memory', 'common practice, no source'],
  ])('says where none is named: %s', (text, expected) => {
    expect(signed(text)).toBe(expected);
  });
});
