import type { PersonBeliefs, RoleBlinding } from '../../analysis/index.js';
import { type Block, type Line, paragraph, quoted } from '../document.js';
import { dayText } from '../words/report-numbers.js';

/** More people than this are in `opinion.json` alone. */
const MOST_PEOPLE = 24;

/** Who was asked, as what, when, and how often they were right. */
export function blindingBlocks(blinding: readonly RoleBlinding[]): readonly Block[] {
  const people = blinding.flatMap(({ role, byPerson }) => byPerson.map((one) => ({ role, ...one })));
  if (people.length === 0) return [];
  const hidden = people.length - MOST_PEOPLE;
  return [
    { kind: 'subheading', text: 'Who believed what, and when' },
    paragraph(
      'The last note of each person on each wall counts. “Right” means treated or untreated as the wall was; a sham counts as untreated.',
    ),
    {
      kind: 'table',
      caption: `What people believed of which walls were treated${hidden > 0 ? `; ${hidden} more people are in opinion.json` : ''}`,
      columns: [
        { header: 'Person' },
        { header: 'Role' },
        { header: 'Noted on' },
        { header: 'Walls', look: 'number' },
        { header: 'Right', look: 'number' },
        { header: 'Wrong', look: 'number' },
        { header: 'Did not know', look: 'number' },
      ],
      rows: people.slice(0, MOST_PEOPLE).map(({ role, ...one }): Line[] => rowOf(role, one)),
    },
  ];
}

function rowOf(role: string, { person, from, to, correct, wrong, undecided }: PersonBeliefs): Line[] {
  const days = from === to ? dayText(from) : `${dayText(from)} to ${dayText(to)}`;
  const counts = [correct + wrong + undecided, correct, wrong, undecided].map((count): Line => [`${count}`]);
  return [[quoted(person)], [role], [days], ...counts];
}
