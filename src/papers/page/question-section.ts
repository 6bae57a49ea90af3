import type { TrialPlan } from '../../planning/make-plan.js';
import { paragraph, quoted, type Section, strong } from '../../report/document.js';
import { levelInWords } from '../../words/movement.js';
import { listInWords } from '../../words/quantity.js';
import { statedDifference } from './plan-words.js';

/** What is put to the test, and what decides. */
export function questionSection({ plan, allocation }: TrialPlan): Section {
  const { outcome, margin, marginSource, arms, confidence } = plan;
  const source = marginSource === undefined ? 'Where it comes from is not stated.' : '';
  const counts = arms.map(({ arm, role }) => {
    const walls = allocation.walls.filter((wall) => wall.arm === arm).length;
    return `${arm} (${role}, ${walls} ${walls === 1 ? 'wall' : 'walls'})`;
  });
  return {
    id: 'question',
    heading: 'What is put to the test',
    blocks: [
      { kind: 'paragraph', role: 'question', line: [quoted(plan.claim)] },
      paragraph(
        strong('What decides: '),
        'the change of ',
        quoted(outcome.quantity),
        ` by the instrument `,
        quoted(outcome.instrument),
        `, after less before, treated walls less untreated ones; ${outcome.better} is better. Its ${levelInWords(confidence)} interval is held against zero and the margin.`,
      ),
      paragraph(
        strong('Margin: '),
        `${statedDifference(margin, outcome.unit)}, the smallest difference worth paying for. `,
        ...(marginSource === undefined ? [source] : ['It comes from: ', quoted(marginSource), '.']),
      ),
      paragraph(strong('Arms: '), quoted(listInWords(counts, 12)), '.'),
    ],
  };
}
