import type { Opinion, Seriousness } from '../opinion.js';
import { paragraph, type Section, strong } from './document.js';

const meanings: Readonly<Record<Seriousness, string>> = {
  fatal: 'fatal: the question cannot be answered',
  serious: 'serious: could make or hide such a result by itself',
  minor: 'minor: worth knowing, unlikely to turn the answer',
};

/** Everything that a hostile reader would raise, the most serious first, each with what would have avoided it. */
export function weaknessesSection({ verdict }: Opinion): Section {
  const { weaknesses } = verdict;
  const used = (['fatal', 'serious', 'minor'] as const).filter((each) =>
    weaknesses.some((weakness) => weakness.seriousness === each),
  );
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
        : [
            paragraph(
              `What someone who doubts this trial would raise, the most serious first. In the first column, ${used.map((each) => meanings[each]).join('; ')}.`,
            ),
            {
              kind: 'table',
              caption: 'Weaknesses of this trial',
              columns: [
                { header: 'Seriousness' },
                { header: 'What is weak' },
                { header: 'What would have avoided it' },
              ],
              rows: weaknesses.map((weakness) => [[strong(weakness.seriousness)], [weakness.text], [weakness.remedy]]),
            },
          ],
  };
}
