import type { Opinion, Seriousness, Weakness } from '../opinion.js';
import { type Line, paragraph, type Section, strong } from './document.js';

const meanings: Readonly<Record<Seriousness, string>> = {
  fatal: '“fatal” says that the question cannot be answered',
  serious: '“serious” says that it could make or hide such a result by itself',
  minor: '“minor” says that it is worth knowing and unlikely to turn the answer',
};

/** Everything that a hostile reader would raise, the most serious first, each with what would have avoided it. */
export function weaknessesSection({ verdict }: Opinion): Section {
  const { weaknesses } = verdict;
  return {
    id: 'weaknesses',
    heading: 'What weakens it',
    blocks:
      weaknesses.length === 0
        ? [
            paragraph(
              'None of the weaknesses that are looked for was found. That does not mean that there is none: only what was written down can be judged.',
            ),
          ]
        : [paragraph(introduction(weaknesses)), { kind: 'list', items: weaknesses.map(weaknessLine) }],
  };
}

function introduction(weaknesses: readonly Weakness[]): string {
  const used = (['fatal', 'serious', 'minor'] as const).filter((each) =>
    weaknesses.some((weakness) => weakness.seriousness === each),
  );
  return `What someone who doubts this trial would raise, the most serious first: ${used.map((each) => meanings[each]).join(', ')}.`;
}

const names: Readonly<Record<Seriousness, string>> = { fatal: 'Fatal.', serious: 'Serious.', minor: 'Minor.' };

function weaknessLine({ seriousness, text, remedy }: Weakness): Line {
  return [strong(names[seriousness]), ` ${text} What would have avoided it: ${remedy}`];
}
