import type { Evidence, Opinion, Seriousness } from '../opinion.js';
import { countInWords } from '../words/quantity.js';
import { paragraph, quoted, type Section, strong } from './document.js';

const meanings: Readonly<Record<Evidence, string>> = {
  firm: 'nothing serious was found against the way this trial was made, and at most a couple of minor points.',
  fair: 'something can be held against the way this trial was made, though not enough to give its answer up.',
  shaky:
    'more than one serious point stands against this trial, or one on top of several others. What was seen could have come about in other ways than by the treatment.',
  none: 'the way this trial was made cannot carry an answer, however good or bad its numbers look.',
};

const meaningOfTwo =
  'one wall stands for each arm, so that it can be no firmer however well the two were read. What was seen could have come about in other ways than by the treatment.';

/** The question and the answer first, in words that need no statistics. */
export function answerSection(opinion: Opinion): Section {
  const { protocol, verdict } = opinion;
  return {
    id: 'answer',
    heading: 'The question and the answer',
    blocks: [
      {
        kind: 'paragraph',
        role: 'question',
        line: ['The claim that was put to the test: “', quoted(protocol.claim), '”'],
      },
      { kind: 'paragraph', role: 'answer', line: [verdict.sentence] },
      paragraph(
        'The evidence is ',
        strong(verdict.evidence),
        `: ${isOfTwo(opinion) ? meaningOfTwo : meanings[verdict.evidence]}`,
      ),
      paragraph(weaknessCount(verdict.weaknesses.map((weakness) => weakness.seriousness))),
    ],
  };
}

function isOfTwo({ primary, verdict }: Opinion): boolean {
  return primary.kind === 'estimated' && primary.method === 'paired-series' && verdict.evidence === 'shaky';
}

function weaknessCount(seriousness: readonly Seriousness[]): string {
  if (seriousness.length === 0) return 'No weakness was found among those that are looked for.';
  const parts = (['fatal', 'serious', 'minor'] as const).flatMap((each) => {
    const count = seriousness.filter((one) => one === each).length;
    return count === 0 ? [] : [`${count} ${each}`];
  });
  return `${countInWords(seriousness.length, 'weakness', 'weaknesses')} found (${parts.join(', ')}); the section “What weakens it” says which, and what would have avoided each.`;
}
