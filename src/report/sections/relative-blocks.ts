import type { Relative } from '../../findings/answer/relative-change.js';
import type { Opinion } from '../../opinion/opinion.js';
import { decimalsFor, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { type Block, type Line, paragraph } from '../document.js';
import { intervalText } from '../words/report-numbers.js';

/** The answer in percent of what was there before, so that nobody takes percentage points for it. */
export function relativeBlocks({ relative, protocol }: Opinion): readonly Block[] {
  if (relative === undefined) return [];
  const { sides, difference } = relative;
  const rows = [
    { name: 'Treated walls’ change, of their before value', of: sides.treated },
    { name: 'Untreated walls’ change, of their before value', of: sides.untreated },
    { name: 'Difference, of the treated walls’ before value', of: difference },
  ];
  return [
    {
      kind: 'table',
      caption: 'The same as relative changes, in percent of the before value',
      columns: [
        { header: 'What' },
        { header: 'Relative (%)', look: 'number' },
        { header: `${levelInWords(protocol.confidence)} interval`, look: 'number' },
        { header: 'Walls', look: 'number' },
      ],
      rows: rows.flatMap(({ name, of }) => (of === undefined ? [] : [rowOf(name, of)])),
    },
    paragraph(
      'Percentage points say how much water went; the relative change says what share of it. Walls that were nearly dry show a large relative change of next to nothing. Ratios of means over walls, with Fieller’s interval; where it is missing, the before value or the design allows none. The verdict rests on the percentage points.',
    ),
  ];
}

function rowOf(name: string, { estimate_pct, interval, walls }: Relative): readonly Line[] {
  const decimals = interval === undefined ? 0 : Math.min(1, decimalsFor((interval.upper - interval.lower) / 2));
  return [
    [name],
    [formatSigned(estimate_pct, decimals)],
    [interval === undefined ? 'none' : intervalText(interval, decimals)],
    [`${walls}`],
  ];
}
