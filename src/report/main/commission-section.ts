import type { Opinion } from '../../opinion/opinion.js';
import type { See } from '../annex-names.js';
import { blank, type Line, quoted, type Section } from '../document.js';
import { dayText } from '../words/report-numbers.js';

/** Who wrote the opinion, for whom, and on what; a line to fill in where nobody said. */
export function commissionSection({ commission, protocol, files }: Opinion, see: See): Section {
  const stated = (text: string | undefined): Line => [text === undefined ? blank : quoted(text)];
  const withDay = (text: string | undefined, iso: string | undefined): Line => [
    ...stated(text),
    ...(iso === undefined ? (text === undefined ? [] : [', on ', blank]) : [`, on ${dayText(iso)}`]),
  ];
  const list = (texts: readonly string[] = []): Line =>
    texts.length === 0 ? [blank] : texts.flatMap((text, index): Line => [index === 0 ? '' : '; ', quoted(text)]);
  const questions = commission?.questions ?? [];
  const photographs = commission?.photographs.length ?? 0;
  return {
    id: 'commission',
    heading: 'Who asked, and what',
    part: 'further',
    blocks: [
      {
        kind: 'table',
        caption: 'The instruction',
        columns: [{ header: 'What' }, { header: 'Stated', look: 'prose' }],
        rows: [
          [['Author'], stated(commission?.author)],
          [['Qualification'], stated(commission?.qualification)],
          [['For'], stated(commission?.client)],
          [['Instruction'], withDay(commission?.instruction, commission?.instructedOn)],
          [['Questions'], questions.length === 0 ? ['The claim: “', quoted(protocol.claim), '”'] : numbered(questions)],
          [['Inspection'], withDay(commission?.inspectedBy, commission?.inspectedOn)],
          [['Site'], stated(commission?.site)],
          [['Walls'], stated(commission?.walls)],
          [['Materials'], stated(commission?.materials)],
          [['Documents'], list(commission?.documents)],
          [
            ['Trial folder'],
            [`${files.length} files or sheets, listed in `, see('methods'), ' and ', see('provenance'), '.'],
          ],
          ...(photographs === 0 ? [] : [[['Photographs'], [`${photographs}, in `, see('photographs'), '.']]]),
        ],
      },
    ],
  };
}

function numbered(questions: readonly string[]): Line {
  return questions.flatMap((question, index): Line => [`${index === 0 ? '' : ' '}${index + 1}. `, quoted(question)]);
}
