import type { LaterYear } from '../../findings/later-years/later-years.js';
import { reasonInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { formatNumber, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { type Line, paragraph, type Section } from '../document.js';
import { dayText, intervalText, outcomeDecimals } from '../words/report-numbers.js';

/** The comparison in the years after the plan's window: whether the effect lasts. No section without readings there. */
export function laterYearsSection(opinion: Opinion): Section | undefined {
  const { laterYears, protocol, primary } = opinion;
  if (laterYears === undefined) return undefined;
  const decimals = outcomeDecimals(opinion);
  const inWindow: readonly Line[][] =
    primary.kind === 'estimated'
      ? [
          [
            ['the plan’s after window'],
            ['as planned'],
            [walls(primary.estimate.walls)],
            [formatSigned(primary.estimate.estimate, decimals)],
            [intervalText(primary.estimate.interval, decimals)],
          ],
        ]
      : [];
  return {
    id: 'later-years',
    heading: 'In later years',
    blocks: [
      paragraph(
        'These readings lie beyond the plan’s after window and move neither the verdict nor the evidence. Years count from each wall’s own treatment, an untreated wall’s from that of its partners. Each line compares what the walls held before the treatment with what they held in that year; walls that were not read in both are left out of it.',
      ),
      {
        kind: 'table',
        caption: `Treated walls’ change less untreated walls’ change, in ${protocol.outcome.unit}`,
        columns: [
          { header: 'Year' },
          { header: 'Read from and to', look: 'whole' },
          { header: 'Treated and untreated walls', look: 'number' },
          { header: 'Difference', look: 'number' },
          { header: `${levelInWords(protocol.confidence)} interval`, look: 'number' },
        ],
        rows: [...inWindow, ...laterYears.map((year) => row(year, decimals))],
      },
      ...laterYears.flatMap(({ year, answer }) =>
        answer.kind === 'estimated'
          ? []
          : [paragraph(`Year ${year} has no interval: ${reasonInWords(answer.reason)}.`)],
      ),
    ],
  };
}

function row({ year, days, answer }: LaterYear, decimals: number): readonly Line[] {
  const read: Line = [`${dayText(days.from)} to ${dayText(days.to)}`];
  if (answer.kind === 'not-estimated') {
    const { difference } = answer;
    return [
      [formatNumber(year, 0)],
      read,
      [walls(answer.walls)],
      [difference === undefined ? 'none' : formatSigned(difference, decimals)],
      ['none'],
    ];
  }
  const { estimate } = answer;
  return [
    [formatNumber(year, 0)],
    read,
    [walls(estimate.walls)],
    [formatSigned(estimate.estimate, decimals)],
    [intervalText(estimate.interval, decimals)],
  ];
}

function walls({ treated, untreated }: { readonly treated: number; readonly untreated: number }): string {
  return `${treated} and ${untreated}`;
}
