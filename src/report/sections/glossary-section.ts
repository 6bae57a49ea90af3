import type { Section, Term } from '../document.js';

const entries: readonly (readonly [string, string])[] = [
  ['Arm', 'The walls that were treated alike: treated, left alone (control), or given a sham.'],
  ['Before and after', 'The readings inside the two windows of days that the plan names.'],
  ['Block', 'Walls that are alike and stand together, compared with each other only; of two walls, a pair.'],
  ['Blind', 'Kept from knowing which walls were treated.'],
  [
    'Confidence interval',
    'The range of differences that fit the readings. Of 100 such intervals at 95 %, about 95 include the true difference.',
  ],
  ['Core', 'Material drilled from a wall, weighed wet and again dry.'],
  ['Difference', 'The treated walls’ change less the untreated walls’ change.'],
  ['Dry basis', 'Mass of water over mass of dry material, in percent by mass.'],
  ['Evidence', 'How well the trial was made, whatever its result: firm, fair, shaky or none.'],
  ['Margin', 'The smallest difference that the plan calls worthwhile.'],
  [
    'p-value',
    'How often chance alone would give a difference at least this large, if the treatment did nothing and the assumptions held.',
  ],
  [
    'Percentage points',
    'A difference of two percentages: from 8 % to 6 % is 2 points, and a quarter of what there was.',
  ],
  ['Randomised', 'Which walls were treated was decided by chance, not by a person.'],
  ['Sham', 'Something that looks like the treatment and does nothing.'],
  ['Station', 'A place on a wall that is read again and again, at its own height.'],
  ['Threat to validity', 'Something other than the treatment that could make or hide such a result.'],
];

/** The words of the report that a reader may not know. */
export function glossarySection(): Section {
  const items = entries.map(([term, text]): Term => ({ term, line: [text] }));
  return { id: 'glossary', heading: 'Glossary', blocks: [{ kind: 'terms', items }] };
}
