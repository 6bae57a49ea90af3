import type { Opinion } from '../../opinion/opinion.js';
import type { Threat } from '../../opinion/threats/threat.js';
import { verdictInWords } from '../../opinion/threats/turn-in-words.js';
import { formatPValue } from '../../words/format-number.js';
import { movementInWords } from '../../words/movement.js';
import { differenceInWords, listInWords } from '../../words/quantity.js';
import type { See } from '../annex-names.js';
import type { Line, Section, Term } from '../document.js';
import { quoted } from '../document.js';
import { firstSentence } from '../words/first-sentence.js';
import { outcomeDecimals } from '../words/report-numbers.js';
import { byGravity } from './first-page-section.js';

/** Facts, inferences and opinion kept apart, and what another expert could hold. */
export function readingSection(opinion: Opinion, see: See): Section {
  return {
    id: 'reading',
    heading: 'Facts, inferences, opinion',
    part: 'further',
    blocks: [
      {
        kind: 'terms',
        items: [
          { term: 'Fact', line: fact(opinion, see) },
          ...inference(opinion, see),
          { term: 'Opinion', line: [quoted(firstSentence(opinion.verdict.sentence)), ' (', see('methods'), ')'] },
          { term: 'Range of opinion', line: range(opinion, see) },
        ],
      },
    ],
  };
}

function fact(opinion: Opinion, see: See): Line {
  const decimals = outcomeDecimals(opinion);
  const { quantity, unit } = opinion.protocol.outcome;
  const changes = opinion.arms.flatMap(({ arm, before, change }) =>
    before === undefined ? [] : [`in arm “${arm}” it ${movementInWords(change, unit, decimals)}`],
  );
  if (changes.length === 0)
    return ['No wall has both a before and an after value of the outcome. (', see('walls'), ')'];
  return [quoted(`The ${quantity}, mean over walls: ${listInWords(changes)}.`), ' (', see('walls'), ')'];
}

function inference({ primary, protocol, agreement }: Opinion, see: See): readonly Term[] {
  if (primary.kind === 'not-estimated' || agreement.kind === 'no-primary') return [];
  const { interval, pValue } = primary.estimate;
  const excludes = interval.lower > 0 || interval.upper < 0;
  const chance = excludes
    ? 'Chance among walls is an unlikely reason for a difference of this size'
    : 'A difference of this size would not be unusual by chance among walls alone';
  const held = protocol.margin === undefined ? 'Held against zero' : 'Held against zero and the margin';
  return [
    {
      term: 'Inference',
      line: [
        `${chance}${pValue === undefined ? '' : ` (${formatPValue(pValue)})`}. ${held}, the interval says ${verdictInWords(agreement.code)}. Both rest on the assumptions of the method. (`,
        see('analyses'),
        ')',
      ],
    },
  ];
}

/** The more cautious by the worst point that was found or the smallest bias, the bolder by what speaks for the result. */
function range(opinion: Opinion, see: See): Line {
  const { primary, threats, judging, protocol } = opinion;
  const weighed = byGravity(threats);
  const named = (threat: Threat | undefined) =>
    threat === undefined ? 'something that nobody recorded' : `“${threat.name}”`;
  if (primary.kind === 'not-estimated') {
    const description = opinion.walls.some(({ before }) => before !== undefined)
      ? ' Another expert could give the change that was seen some weight as a description of these walls.'
      : '';
    return [
      `That ${named(weighed[0])} rules out any conclusion is hard to dispute.${description} (`,
      see('threats'),
      ')',
    ];
  }
  // What works against the claim cannot have made it look better.
  const about = named(weighed.find(({ direction }) => direction !== 'away from the claim'));
  const { flattered, hidden } = judging?.turning ?? { flattered: [], hidden: [] };
  const [first, other] = [flattered[0], hidden[0]];
  const cautious =
    first === undefined
      ? `A more cautious expert could doubt it because of ${about}; no bias towards the claim would change the verdict.`
      : `A more cautious expert could hold that ${about} moved the difference by ${differenceInWords(first.shift, protocol.outcome.unit)} towards the claim, which would change the verdict.`;
  const bold =
    other === undefined
      ? 'One more favourable to the claim reaches the same verdict: no bias away from the claim would change it.'
      : `One more favourable to the claim would have to hold that a bias of ${differenceInWords(other.shift, protocol.outcome.unit)} hid an effect.`;
  return [quoted(`${cautious} ${bold}`), ' (', see('threats'), ')'];
}
