import { estimateInWords, reasonInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { formatNumber, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import type { See } from '../annex-names.js';
import { type Block, type Line, paragraph, quoted, type Section, strong } from '../document.js';
import { intervalText, outcomeDecimals, pValueText } from '../words/report-numbers.js';

/** What each arm did, the difference, and how it was found. */
export function resultSection(opinion: Opinion, see: See): Section {
  return {
    id: 'result',
    heading: 'The result',
    part: 'further',
    blocks: [...table(opinion, see), ...method(opinion, see)],
  };
}

function table(opinion: Opinion, see: See): readonly Block[] {
  const { protocol, primary } = opinion;
  const { arms } = opinion;
  if (arms.length === 0) return [];
  const decimals = outcomeDecimals(opinion);
  const relative = opinion.relative?.sides;
  const ofSide = (side: 'treated' | 'untreated') => {
    // Only where the side is one arm are both numbers of the same walls.
    const isOne = arms.filter((arm) => arm.side === side).length === 1;
    const found = relative?.[side];
    return found === undefined || !isOne ? 'none' : `${formatSigned(found.estimate_pct, 0)} %`;
  };
  const rows = arms.map((arm): readonly Line[] => [
    [quoted(arm.arm), `, ${countInWords(arm.walls, 'wall')}`],
    [arm.before === undefined ? 'none' : formatNumber(arm.before, decimals)],
    [formatNumber(arm.after, decimals)],
    [arm.before === undefined ? 'none' : formatSigned(arm.change, decimals)],
    ...(relative === undefined ? [] : [[ofSide(arm.side)] as Line]),
    [see('walls')],
  ]);
  const difference: readonly (readonly Line[])[] =
    primary.kind === 'estimated'
      ? [
          [
            [strong('Difference')],
            [''],
            [''],
            [strong(formatSigned(primary.estimate.estimate, decimals))],
            ...(relative === undefined ? [] : [[''] as Line]),
            [see('analyses')],
          ],
        ]
      : [];
  return [
    {
      kind: 'table',
      caption: `Means over walls, ${protocol.outcome.quantity} in ${protocol.outcome.unit}`,
      columns: [
        { header: 'Arm' },
        { header: 'Before', look: 'number' },
        { header: 'After', look: 'number' },
        { header: 'Change', look: 'number' },
        ...(relative === undefined ? [] : [{ header: 'Of before', look: 'number' as const }]),
        { header: 'See', look: 'whole' },
      ],
      rows: [...rows, ...difference],
    },
  ];
}

function method(opinion: Opinion, see: See): readonly Block[] {
  const { primary, judging } = opinion;
  if (primary.kind === 'not-estimated')
    return [paragraph(`No interval could be computed: ${reasonInWords(primary.reason)}. (`, see('analyses'), ')')];
  const { estimate } = primary;
  const decimals = outcomeDecimals(opinion);
  const others = opinion.analyses.flatMap((answer) => (answer.kind === 'estimated' ? [answer.estimate.estimate] : []));
  const all = [...others, estimate.estimate];
  const range =
    others.length === 0
      ? ''
      : ` ${countInWords(others.length, 'other analysis', 'other analyses')} of the same question: ${formatSigned(Math.min(...all), decimals)} to ${formatSigned(Math.max(...all), decimals)}.`;
  const choices =
    judging === undefined || judging.agreement.of < 2
      ? ''
      : ` With every choice that could be defended, ${judging.agreement.agree} of ${judging.agreement.of} give the same verdict.`;
  return [
    paragraph(
      `The difference, treated less untreated, is ${formatSigned(estimate.estimate, decimals)} ${estimate.unit} (${levelInWords(estimate.interval.level)} interval ${intervalText(estimate.interval, decimals)}, ${pValueText(estimate)}). Method: ${estimateInWords(estimate).method}.${range}${choices} (`,
      see('analyses'),
      ', ',
      see('robustness', 'analyses'),
      ')',
    ),
  ];
}
