import { countThreats } from '../../opinion/evidence.js';
import type { Evidence, Opinion } from '../../opinion/opinion.js';
import { isWeighed, type Threat } from '../../opinion/threats/threat.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted, type Section, strong } from '../document.js';

const meanings: Readonly<Record<Evidence, string>> = {
  firm: 'the folder states everything that firm evidence rests on, and nothing serious was found against the trial.',
  fair: 'something can be held against the trial, though not enough to give its answer up.',
  shaky: 'what was seen could have come about in other ways than by the treatment.',
  none: 'the way this trial was made cannot carry an answer, however good or bad its numbers look.',
};

/** The question and the answer first, in words that need no statistics. */
export function answerSection(opinion: Opinion): Section {
  const { protocol, verdict, threats } = opinion;
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
      paragraph('The evidence is ', strong(verdict.evidence), `: ${meanings[verdict.evidence]}`),
      ...reasons(threats),
      ...fragility(threats),
    ],
  };
}

/** So many reasons stand on the first page; the section on threats holds them all. */
const shown = 3;
const gravity = ['fatal', 'serious', 'minor'];

function reasons(threats: readonly Threat[]): readonly Block[] {
  const weighed = threats
    .filter(isWeighed)
    .toSorted((one, other) => gravity.indexOf(one.seriousness) - gravity.indexOf(other.seriousness));
  if (weighed.length === 0)
    return [
      paragraph(
        'None of the threats that are looked for was found to count; the section “Threats to validity” lists them.',
      ),
    ];
  const count = countThreats(threats);
  const parts = (['fatal', 'serious', 'minor'] as const).flatMap((each) =>
    count[each] === 0 ? [] : [`${count[each]} ${each}`],
  );
  const rest = weighed.length - shown;
  return [
    paragraph(
      `What counts against it (${parts.join(', ')})${rest > 0 ? `; ${countInWords(rest, 'more is', 'more are')} in the section “Threats to validity”` : ''}:`,
    ),
    {
      kind: 'list',
      items: weighed
        .slice(0, shown)
        .map((threat): Line => [strong(`${threat.name} (${threat.seriousness}).`), ' ', quoted(threat.text)]),
    },
  ];
}

const fragilities = new Set(['turns-without-one', 'turns-without-reader', 'turns-among-blind', 'turns-with-choices']);

/** How easily the verdict changes: beside the verdict, not pages later. */
function fragility(threats: readonly Threat[]): readonly Block[] {
  const looked = threats.filter(({ code, finding }) => fragilities.has(code) && finding !== 'could-not-be-looked-for');
  if (looked.length === 0) return [];
  const turning = looked.filter(({ finding }) => finding === 'found');
  return [
    paragraph(
      strong('How fragile it is.'),
      turning.length === 0
        ? ' The verdict stays the same when any one wall, block or reader is left out, and with the other analyses that could have been defended beforehand.'
        : ` ${turning.map(({ tipping }) => tipping).join(' ')}`,
    ),
  ];
}
